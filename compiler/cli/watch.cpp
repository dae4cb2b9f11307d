#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <array>
#include <chrono>

#include "cli/command.h"
#include "diagnostics/render.h"
#include "watch/file_watch.h"
#include "watch/server.h"

namespace gill::cli {
namespace {

// Where the book is found when nobody names a port and it is free.
constexpr int usual_port = 8420;

struct WatchOptions {
  std::string house = ".";
  int port = -1;
  bool drafts = false;
};

/// A pipe that becomes readable when the program is asked to end.
class EndSignal {
 public:
  EndSignal() {
    if (pipe2(ends_.data(), O_CLOEXEC | O_NONBLOCK) != 0) ends_ = {-1, -1};
    write_end = ends_[1];
    struct sigaction action {};
    action.sa_handler = [](int) { [[maybe_unused]] auto written = ::write(write_end, "!", 1); };
    sigaction(SIGINT, &action, nullptr);
    sigaction(SIGTERM, &action, nullptr);
  }
  int descriptor() const { return ends_[0]; }

 private:
  static inline volatile int write_end = -1;
  std::array<int, 2> ends_{-1, -1};
};

using Read = std::variant<driver::HouseFiles, driver::FileError>;

Read read(const WatchOptions& options) { return driver::DiskAccess().read_house(options.house, {}); }

/// Compiles the house, puts its book in place and tells the terminal.
void build(const Read& files, watch::SiteKeeper& keeper, watch::Server& server) {
  auto start = std::chrono::steady_clock::now();
  if (const auto* failure = std::get_if<driver::FileError>(&files)) {
    server.publish(keeper.cannot_read(failure->message));
    fmt::print(stderr, "gill: {}; the book stays as it was\n", failure->message);
    return;
  }
  auto site = keeper.update(std::get<driver::HouseFiles>(files));
  server.publish(site);
  std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  report_errors(*keeper.house());
  fmt::print("Built {} files in {:.2f} s{}.\n", site->files.size(), taken.count(),
             keeper.has_errors() ? "; the house has errors" : "");
  std::fflush(stdout);
}

std::optional<int> open_port(const WatchOptions& options, watch::Server& server) {
  if (options.port >= 0) return server.open(options.port);
  if (auto port = server.open(usual_port)) return port;
  return server.open(0);
}

int run_watch(const WatchOptions& options) {
  EndSignal end;
  // Before the house is read, so that nothing that is saved meanwhile is missed.
  auto changes = watch::watch_files(options.house);
  auto files = read(options);
  if (auto* failure = std::get_if<driver::FileError>(&files)) return refuse(failure->message);
  watch::SiteKeeper keeper(options.drafts);
  watch::Server server;
  auto port = open_port(options, server);
  if (!port)
    return refuse(fmt::format("the port {} is taken; name another one with --port, or none", options.port));
  build(files, keeper, server);
  fmt::print("Watching {}; the book is at http://127.0.0.1:{}/ for this machine alone. Ctrl+C ends it.\n",
             options.house, *port);
  std::fflush(stdout);
  for (;;) {
    switch (changes->wait(end.descriptor(), std::chrono::hours(1))) {
      case watch::FileWatch::Wakeup::changed:
        build(read(options), keeper, server);
        break;
      case watch::FileWatch::Wakeup::stopped:
        server.stop();
        return done;
      case watch::FileWatch::Wakeup::time_is_up:
        break;
    }
  }
}

}  // namespace

void add_watch(CLI::App& app, int& status) {
  auto options = std::make_shared<WatchOptions>();
  auto* command =
      app.add_subcommand("watch", "Rebuilds the book as files change and serves it to this machine");
  command->add_option("HOUSE", options->house, "A folder or a .gill file")->capture_default_str();
  command
      ->add_option(
          "--port", options->port,
          fmt::format("The port on 127.0.0.1; 0 for any free one (left out: {}, or any when it is taken)",
                      usual_port))
      ->check(CLI::Range(0, 65535));
  command->add_flag("--drafts", options->drafts, "Drafts as well");
  show_examples(*command,
                {{"gill watch specs", "the book at http://127.0.0.1:8420, built again at each save"},
                 {"gill watch specs --port 0", "at any free port"}});
  command->callback([options, &status] { status = run_watch(*options); });
}

}  // namespace gill::cli
