#pragma once
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "watch/site.h"

namespace httplib {
class Server;
struct Request;
struct Response;
}  // namespace httplib

namespace gill::watch {

/// Serves a site on this machine alone. Nothing is read from the disk, so no address leads out of the book; a
/// request that names another host than this one is refused, since it comes by way of somebody else's page
/// (DNS rebinding).
class Server {
 public:
  Server();
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  /// Opens a port of 127.0.0.1, or any free one for 0; the port, or nothing where it is taken.
  std::optional<int> open(int port);
  /// Puts another site in place and tells every page that is open.
  void publish(std::shared_ptr<const Site> site);
  /// Ends all answers and closes the port.
  void stop();

 private:
  std::shared_ptr<const Site> site() const;
  bool is_asked_by_name(const httplib::Request& request) const;
  void answer(const httplib::Request& request, httplib::Response& response) const;
  void tell_of_builds(httplib::Response& response);

  std::unique_ptr<httplib::Server> http_;
  std::thread thread_;
  int port_ = 0;
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::shared_ptr<const Site> site_;
  bool stopping_ = false;
};

}  // namespace gill::watch
