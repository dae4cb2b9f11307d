// `gill watch` as it is used: started on a copy of the demo house, whose files are then changed. Nothing here
// measures time: what is waited for is waited for as long as a slow machine may need.
#include <arpa/inet.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <mutex>
#include <sstream>
#include <thread>

#include "support/fixture.h"
#include "watch/file_watch.h"

namespace fs = std::filesystem;
using namespace std::chrono_literals;
using gill::watch::FileWatch;

namespace {

constexpr auto patience = 60s;

/// A folder of its own that is gone again at the end.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (fs::temp_directory_path() / "gill-watch-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()));
    path = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  void write(const std::string& name, const std::string& text) const {
    fs::create_directories((path / name).parent_path());
    std::ofstream(path / name, std::ios::binary | std::ios::trunc) << text;
  }

  fs::path path;
};

bool within_patience(const std::function<bool()>& holds) {
  auto until = std::chrono::steady_clock::now() + patience;
  while (!holds()) {
    if (std::chrono::steady_clock::now() > until) return false;
    std::this_thread::sleep_for(20ms);
  }
  return true;
}

/// A connection to an address of this machine; below 0 where nobody listens.
int connect_to(const char* address, int port) {
  int connection = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in place{};
  place.sin_family = AF_INET;
  place.sin_port = htons(static_cast<std::uint16_t>(port));
  inet_pton(AF_INET, address, &place.sin_addr);
  timeval limit{5, 0};
  setsockopt(connection, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
  if (connect(connection, reinterpret_cast<sockaddr*>(&place), sizeof place) == 0) return connection;
  close(connection);
  return -1;
}

/// The whole answer to a request as it goes over the wire.
std::string ask(int port, const std::string& request) {
  int connection = connect_to("127.0.0.1", port);
  if (connection < 0) return {};
  std::string answer;
  if (write(connection, request.data(), request.size()) == static_cast<ssize_t>(request.size())) {
    char buffer[8192];
    for (ssize_t length; (length = read(connection, buffer, sizeof buffer)) > 0;)
      answer.append(buffer, static_cast<std::size_t>(length));
  }
  close(connection);
  return answer;
}

/// `gill watch` on a house, on any free port.
class Watch {
 public:
  explicit Watch(const fs::path& house) {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    child_ = fork();
    if (child_ == 0) {
      dup2(ends[1], STDOUT_FILENO);
      dup2(ends[1], STDERR_FILENO);
      close(ends[0]);
      execl(GILL_PROGRAM, "gill", "watch", house.c_str(), "--port", "0", nullptr);
      _exit(127);
    }
    close(ends[1]);
    output_ = ends[0];
    listener_ = std::thread([this] {
      char buffer[4096];
      for (ssize_t length; (length = read(output_, buffer, sizeof buffer)) > 0;) {
        std::lock_guard lock(mutex_);
        reported_.append(buffer, static_cast<std::size_t>(length));
      }
    });
    static constexpr std::string_view before_port = "http://127.0.0.1:";
    REQUIRE(within_patience([&] { return told().find(before_port) != std::string::npos; }));
    port = std::stoi(told().substr(told().find(before_port) + before_port.size()));
  }

  ~Watch() {
    if (child_ > 0) end(SIGKILL);
  }
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;

  /// Sends a signal and waits; the exit status, or -1 for one that was killed by it.
  int end(int signal) {
    kill(child_, signal);
    int status = 0;
    waitpid(child_, &status, 0);
    child_ = -1;
    listener_.join();
    close(output_);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

  std::string told() {
    std::lock_guard lock(mutex_);
    return reported_;
  }

  std::string get(const std::string& path) const {
    return ask(port, "GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) +
                         "\r\nConnection: close\r\n\r\n");
  }

  bool comes_to_show(const std::string& path, const std::string& words) const {
    return within_patience([&] { return get(path).find(words) != std::string::npos; });
  }
  bool comes_to_hide(const std::string& path, const std::string& words) const {
    return within_patience([&] { return get(path).find(words) == std::string::npos; });
  }

  int port = 0;

 private:
  pid_t child_ = -1;
  int output_ = -1;
  std::thread listener_;
  std::mutex mutex_;
  std::string reported_;
};

int status_of(const std::string& answer) {
  return answer.starts_with("HTTP/1.") && answer.size() > 12 ? std::stoi(answer.substr(9, 3)) : 0;
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

constexpr const char* candle =
    "drink Candle\n  glass rocks\n  45 ml vodka\n  15 ml water\n  stir 30 s\n  strain\n  garnish none\n";
constexpr const char* wick =
    "drink Long Wick\n  glass highball\n  45 ml vodka\n  build\n  top soda water\n  garnish none\n";

}  // namespace

TEST_CASE("a change of the demo house shows on its page", "[watch]") {
  TemporaryFolder folder;
  fs::copy(GILL_SOURCE_DIR "/specs", folder.path / "house", fs::copy_options::recursive);
  Watch watch(folder.path / "house");
  auto front = watch.get("/");
  CHECK(status_of(front) == 200);
  CHECK(has(front, "Content-Type: text/html; charset=utf-8"));
  CHECK(watch.get("/index.html") == front);
  CHECK(has(watch.get("/book.css"), "Content-Type: text/css"));
  CHECK(status_of(watch.get("/drinks/candle.html")) == 404);
  folder.write("house/candle.gill", candle);
  REQUIRE(watch.comes_to_show("/drinks/candle.html", "45 ml"));
  folder.write("house/candle.gill",
               std::string(candle).replace(std::string(candle).find("45 ml"), 5, "50 ml"));
  REQUIRE(watch.comes_to_show("/drinks/candle.html", "50 ml"));
  // A folder that is new is watched as well, and so is what goes away.
  folder.write("house/new/deep/wick.gill", wick);
  REQUIRE(watch.comes_to_show("/drinks/long-wick.html", "Long Wick"));
  fs::remove(folder.path / "house/new/deep/wick.gill");
  CHECK(within_patience([&] { return status_of(watch.get("/drinks/long-wick.html")) == 404; }));
}

TEST_CASE("an open page is told of each build", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  Watch watch(folder.path);
  CHECK(has(watch.get("/"), "<script src=\"/.gill/reload.js\" data-seen="));
  CHECK(has(watch.get("/.gill/reload.js"), "new EventSource"));
  int connection = connect_to("127.0.0.1", watch.port);
  REQUIRE(connection >= 0);
  std::string request =
      "GET /.gill/builds HTTP/1.1\r\nHost: localhost:" + std::to_string(watch.port) + "\r\n\r\n";
  REQUIRE(write(connection, request.data(), request.size()) == static_cast<ssize_t>(request.size()));
  std::string answer;
  auto events = [&] {
    std::size_t count = 0;
    for (auto at = answer.find("data: "); at != std::string::npos; at = answer.find("data: ", at + 1))
      ++count;
    return count;
  };
  auto hear = [&](std::size_t wanted) {
    return within_patience([&] {
      char buffer[1024];
      ssize_t length = recv(connection, buffer, sizeof buffer, MSG_DONTWAIT);
      if (length > 0) answer.append(buffer, static_cast<std::size_t>(length));
      return events() >= wanted;
    });
  };
  REQUIRE(hear(1));
  CHECK(has(answer, "text/event-stream"));
  folder.write("b.gill", wick);
  REQUIRE(hear(2));
  close(connection);
}

TEST_CASE("an error is told on the page where the drink would be, and in the terminal", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  folder.write("b.gill", wick);
  Watch watch(folder.path);
  folder.write("a.gill", std::string(candle).replace(std::string(candle).find("45 ml"), 5, "45 furlongs"));
  REQUIRE(watch.comes_to_show("/drinks/candle.html", "furlongs"));
  CHECK(has(watch.get("/drinks/candle.html"), "a.gill:3:"));
  CHECK(has(watch.get("/"), "a.gill:3:"));
  CHECK(within_patience([&] { return has(watch.told(), "a.gill:3:"); }));
  folder.write("a.gill", candle);
  CHECK(watch.comes_to_hide("/drinks/candle.html", "furlongs"));
  CHECK(watch.comes_to_hide("/", "a.gill:3:"));
}

TEST_CASE("a file that is saved half-written keeps the last good page and marks it", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", std::string(candle) + "\n" + wick);
  Watch watch(folder.path);
  REQUIRE(watch.comes_to_show("/drinks/long-wick.html", "Long Wick"));
  // Cut in the middle of a line of the first drink: the second is not there at all.
  folder.write("a.gill", std::string(candle).substr(0, 35));
  REQUIRE(watch.comes_to_show("/drinks/long-wick.html", "kept as it last was"));
  CHECK(status_of(watch.get("/drinks/long-wick.html")) == 200);
  CHECK(has(watch.get("/drinks/long-wick.html"), "soda water"));
  // Emptied, as an editor does before it writes.
  folder.write("a.gill", "");
  REQUIRE(watch.comes_to_show("/drinks/candle.html", "empty at the moment"));
  CHECK(has(watch.get("/drinks/long-wick.html"), "soda water"));
  // Not there at all, as when an editor puts a new file in its place.
  fs::remove(folder.path / "a.gill");
  REQUIRE(watch.comes_to_show("/drinks/candle.html", "holds no .gill file"));
  CHECK(has(watch.get("/drinks/candle.html"), "kept as it last was"));
  // The whole is saved: no page is marked any more.
  folder.write("a.gill", std::string(candle) + "\n" + wick);
  CHECK(watch.comes_to_hide("/drinks/long-wick.html", "kept as it last was"));
  CHECK(watch.comes_to_hide("/drinks/candle.html", "at the moment"));
}

TEST_CASE("a house of one file is watched though editors replace it", "[watch]") {
  TemporaryFolder folder;
  folder.write("bar.gill", candle);
  Watch watch(folder.path / "bar.gill");
  folder.write(".bar.gill.swp", std::string(candle) + "\n" + wick);
  fs::rename(folder.path / ".bar.gill.swp", folder.path / "bar.gill");
  CHECK(watch.comes_to_show("/drinks/long-wick.html", "Long Wick"));
}

TEST_CASE("no address leads out of the book", "[watch]") {
  TemporaryFolder folder;
  folder.write("house/a.gill", candle);
  folder.write("secret.txt", "the safe is behind the mirror");
  Watch watch(folder.path / "house");
  for (const std::string path :
       {"/../secret.txt", "/..%2fsecret.txt", "/%2e%2e/secret.txt", "/%2e%2e%2fsecret.txt", "//secret.txt",
        "/drinks/../../secret.txt", "/./../secret.txt", "/..\\secret.txt", "/..%5csecret.txt",
        "/%00/../secret.txt", "/a.gill", "/.gill/../secret.txt", "/../../../../../../etc/passwd",
        "/%252e%252e/secret.txt"}) {
    INFO(path);
    auto answer = watch.get(path);
    CHECK(status_of(answer) >= 400);
    CHECK_FALSE(has(answer, "mirror"));
    CHECK_FALSE(has(answer, "root:"));
  }
  auto absolute = watch.get((folder.path / "secret.txt").string());
  CHECK(status_of(absolute) == 404);
  // The address itself is no way in for markup either.
  CHECK_FALSE(has(watch.get("/<script>alert(1)</script>"), "alert(1)"));
  CHECK(status_of(watch.get("/")) == 200);
}

TEST_CASE("a request by another host's name is refused", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  Watch watch(folder.path);
  auto port = std::to_string(watch.port);
  auto by = [&](const std::string& headers) {
    return ask(watch.port, "GET / HTTP/1.1\r\n" + headers + "Connection: close\r\n\r\n");
  };
  CHECK(status_of(by("Host: localhost:" + port + "\r\n")) == 200);
  for (const auto& headers : std::vector<std::string>{
           "Host: evil.example\r\n", "Host: evil.example:" + port + "\r\n",
           "Host: 127.0.0.1.evil.example:" + port + "\r\n", "Host: localhost\r\n", "Host: 127.0.0.1:1\r\n",
           "Host: \r\n", std::string(), "Host: localhost:" + port + "\r\nHost: evil.example\r\n"}) {
    INFO(headers);
    auto answer = by(headers);
    CHECK(status_of(answer) >= 400);
    CHECK_FALSE(has(answer, "Candle"));
  }
}

TEST_CASE("the book is read and never written, and odd requests do no harm", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  Watch watch(folder.path);
  auto host = "Host: 127.0.0.1:" + std::to_string(watch.port) + "\r\n";
  for (const std::string method : {"POST", "PUT", "DELETE", "OPTIONS"}) {
    INFO(method);
    CHECK(status_of(ask(watch.port, method + " / HTTP/1.1\r\n" + host +
                                        "Content-Length: 0\r\nConnection: close\r\n\r\n")) >= 400);
  }
  ask(watch.port, "\r\n\r\n");
  ask(watch.port, "GET\r\n\r\n");
  ask(watch.port, "GET /" + std::string(100'000, 'a') + " HTTP/1.1\r\n" + host + "\r\n");
  ask(watch.port,
      "POST / HTTP/1.1\r\n" + host + "Content-Length: 99999999999\r\nConnection: close\r\n\r\nabc");
  CHECK(status_of(watch.get("/")) == 200);
}

TEST_CASE("only the loopback address answers", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  Watch watch(folder.path);
  // The same machine by another of its addresses: bound to one address, nothing listens there.
  CHECK(connect_to("127.0.0.2", watch.port) < 0);
  // As the kernel's table of sockets has it: the local address is 127.0.0.1, which is 0100007F there, and no
  // other.
  std::ifstream table("/proc/net/tcp");
  if (!table) return;
  char port[8];
  std::snprintf(port, sizeof port, ":%04X", watch.port);
  std::string line;
  int listening = 0;
  while (std::getline(table, line)) {
    std::istringstream words(line);
    std::string number, local, remote, state;
    words >> number >> local >> remote >> state;
    if (!local.ends_with(port) || state != "0A") continue;
    ++listening;
    CHECK(local == std::string("0100007F") + port);
  }
  CHECK(listening == 1);
}

TEST_CASE("a signal ends it cleanly, with a page open as well", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  for (int signal : {SIGINT, SIGTERM}) {
    Watch watch(folder.path);
    int open_page = connect_to("127.0.0.1", watch.port);
    std::string request =
        "GET /.gill/builds HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(watch.port) + "\r\n\r\n";
    REQUIRE(write(open_page, request.data(), request.size()) > 0);
    CHECK(watch.end(signal) == 0);
    CHECK(connect_to("127.0.0.1", watch.port) < 0);
    close(open_page);
  }
}

TEST_CASE("only watch puts the reloading script into a page", "[watch]") {
  TemporaryFolder folder;
  folder.write("house/a.gill", candle);
  std::string out = (folder.path / "out").string(), house = (folder.path / "house").string();
  std::string line =
      std::string(GILL_PROGRAM) + " book '" + house + "' --out '" + out + "' > '" + out + ".log' 2>&1";
  REQUIRE(WEXITSTATUS(std::system(line.c_str())) <= 1);
  auto page = gill::testing::read_file(out + "/drinks/candle.html");
  CHECK(has(page, "Candle"));
  CHECK_FALSE(has(page, "EventSource"));
  CHECK_FALSE(has(page, "reload.js"));
}

// ---- the two ways to hear of changes

namespace {

void check_tells(FileWatch& watch, const TemporaryFolder& folder) {
  int never[2];
  REQUIRE(pipe(never) == 0);
  CHECK(watch.wait(never[0], 1ms) == FileWatch::Wakeup::time_is_up);
  auto told = [&] { return watch.wait(never[0], patience) == FileWatch::Wakeup::changed; };
  folder.write("b.gill", wick);
  CHECK(told());
  folder.write("deep/er/c.gill", "# nothing yet\n");
  CHECK(told());
  while (watch.wait(never[0], 600ms) == FileWatch::Wakeup::changed) {
  }
  folder.write("deep/er/c.gill", candle);
  CHECK(told());
  fs::remove(folder.path / "b.gill");
  CHECK(told());
  fs::rename(folder.path / "deep/er/c.gill", folder.path / "deep/er/d.gill");
  CHECK(told());
  while (watch.wait(never[0], 600ms) == FileWatch::Wakeup::changed) {
  }
  // What is no spec is no change.
  folder.write("notes.txt", "Buy limes.");
  folder.write(".hidden.gill", "drink\n");
  CHECK(watch.wait(never[0], 600ms) == FileWatch::Wakeup::time_is_up);
  // The wish to end comes first.
  REQUIRE(write(never[1], "!", 1) == 1);
  CHECK(watch.wait(never[0], patience) == FileWatch::Wakeup::stopped);
  close(never[0]);
  close(never[1]);
}

}  // namespace

TEST_CASE("the kernel tells of every change of a house", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  auto watch = gill::watch::watch_files(folder.path.string());
  check_tells(*watch, folder);
}

TEST_CASE("where the kernel cannot tell, looking does", "[watch]") {
  TemporaryFolder folder;
  folder.write("a.gill", candle);
  auto watch = gill::watch::watch_by_looking(folder.path.string());
  check_tells(*watch, folder);
}
