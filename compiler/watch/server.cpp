#include "watch/server.h"

#include <fmt/format.h>
#include <httplib.h>

#include <array>
#include <chrono>

namespace gill::watch {

namespace {

constexpr const char* loopback = "127.0.0.1";
// Every page that is open holds one answer open; a page asks again when its answer ends.
constexpr std::size_t threads = 24;
constexpr std::chrono::seconds longest_answer{20};
// So often it is looked whether the page is still there.
constexpr std::chrono::milliseconds time_between_checks{500};
constexpr std::size_t largest_request_body_bytes = 4096;

enum HttpStatus : int { not_found = 404, method_not_allowed = 405, misdirected_request = 421 };

std::string type_of(const std::string& path) {
  static constexpr std::array<std::pair<std::string_view, const char*>, 5> types = {
      {{".html", "text/html; charset=utf-8"},
       {".css", "text/css; charset=utf-8"},
       {".js", "text/javascript; charset=utf-8"},
       {".svg", "image/svg+xml"},
       {".json", "application/json"}}};
  for (auto [ending, type] : types)
    if (path.ends_with(ending)) return type;
  return "text/plain; charset=utf-8";
}

void refuse(httplib::Response& response, int status, const char* why) {
  response.status = status;
  response.set_content(std::string(why) + "\n", "text/plain; charset=utf-8");
}

}  // namespace

Server::Server() : http_(std::make_unique<httplib::Server>()), site_(std::make_shared<Site>()) {
  http_->new_task_queue = [] { return new httplib::ThreadPool(threads); };
  http_->set_keep_alive_max_count(1);
  http_->set_payload_max_length(largest_request_body_bytes);
  http_->set_read_timeout(5);
  http_->set_tcp_nodelay(true);
  // Not the library's own choice, which lets two programs share a port.
  http_->set_socket_options([](socket_t socket) {
    int yes = 1;
    setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  http_->set_default_headers({{"Cache-Control", "no-store"},
                              {"X-Content-Type-Options", "nosniff"},
                              {"Referrer-Policy", "no-referrer"},
                              {"Cross-Origin-Resource-Policy", "same-origin"},
                              {"X-Frame-Options", "DENY"}});
  http_->set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& response) {
    if (!is_asked_by_name(request))
      refuse(response, misdirected_request,
             "This book is served to this machine alone, as 127.0.0.1 or localhost.");
    else if (request.method != "GET" && request.method != "HEAD")
      refuse(response, method_not_allowed, "The book can be read, not written.");
    else if (request.path == "/.gill/builds")
      tell_of_builds(response);
    else
      answer(request, response);
    return httplib::Server::HandlerResponse::Handled;
  });
}

Server::~Server() { stop(); }

std::optional<int> Server::open(int port) {
  if (port == 0)
    port_ = http_->bind_to_any_port(loopback);
  else
    port_ = http_->bind_to_port(loopback, port) ? port : -1;
  if (port_ <= 0) return std::nullopt;
  thread_ = std::thread([this] { http_->listen_after_bind(); });
  // Before it runs it cannot be stopped.
  while (!http_->is_running()) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  return port_;
}

void Server::publish(std::shared_ptr<const Site> site) {
  {
    std::lock_guard lock(mutex_);
    site_ = std::move(site);
  }
  changed_.notify_all();
}

void Server::stop() {
  {
    std::lock_guard lock(mutex_);
    stopping_ = true;
  }
  changed_.notify_all();
  http_->stop();
  if (thread_.joinable()) thread_.join();
}

std::shared_ptr<const Site> Server::site() const {
  std::lock_guard lock(mutex_);
  return site_;
}

bool Server::is_asked_by_name(const httplib::Request& request) const {
  if (request.get_header_value_count("Host") != 1) return false;
  auto host = request.get_header_value("Host");
  return host == fmt::format("{}:{}", loopback, port_) || host == fmt::format("localhost:{}", port_);
}

void Server::answer(const httplib::Request& request, httplib::Response& response) const {
  auto now = site();
  std::string path = request.path == "/"             ? "index.html"
                     : request.path.starts_with('/') ? request.path.substr(1)
                                                     : "";
  auto found = now->files.find(path);
  if (found == now->files.end()) {
    response.status = not_found;
    response.set_content(missing_page(*now), "text/html; charset=utf-8");
    return;
  }
  response.status = 200;
  response.set_content(found->second, type_of(path));
}

/// Server-sent events (HTML Standard, 9.2): the version at once, so that a page that missed a build comes
/// back, and then each new one.
void Server::tell_of_builds(httplib::Response& response) {
  struct Notified {
    std::string version;
    std::chrono::steady_clock::time_point until = std::chrono::steady_clock::now() + longest_answer;
  };
  auto notified = std::make_shared<Notified>();
  response.status = 200;
  response.set_content_provider("text/event-stream", [this, notified](std::size_t, httplib::DataSink& sink) {
    std::string version;
    bool ends = false;
    {
      std::unique_lock lock(mutex_);
      changed_.wait_for(lock, time_between_checks,
                        [&] { return stopping_ || site_->version != notified->version; });
      version = site_->version;
      ends = stopping_;
    }
    if (ends || !sink.is_writable() || std::chrono::steady_clock::now() > notified->until) {
      sink.done();
      return false;
    }
    if (version == notified->version) return true;
    auto event = notified->version.empty() ? fmt::format("retry: 500\ndata: {}\n\n", version)
                                           : fmt::format("data: {}\n\n", version);
    notified->version = version;
    return sink.write(event.data(), event.size());
  });
}

}  // namespace gill::watch
