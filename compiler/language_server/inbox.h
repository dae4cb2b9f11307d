#pragma once
#include <condition_variable>
#include <deque>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>

#include "base/json.h"

namespace gill::language_server {

/// What came in.
struct Incoming {
  enum class Kind : std::uint8_t {
    message,
    broken,  ///< bytes that are no message; `why` says what is wrong with them
    end      ///< the input is closed
  } kind = Kind::message;
  base::Json message = {};
  std::string why = {};
};

/// Reads messages on a thread of its own, so that what is worked on can be given up for what came after it.
class Inbox {
 public:
  /// Reads from a descriptor until its end.
  explicit Inbox(int descriptor);
  ~Inbox();
  Inbox(const Inbox&) = delete;
  Inbox& operator=(const Inbox&) = delete;

  /// The next one; waits for it.
  Incoming take();
  bool has_waiting();

  /// Asked to stop when a text changes, somebody asks what may be typed, or the client ends: a check begins
  /// anew then.
  std::stop_token check_begins();
  /// Asked to stop when the client gives up this request.
  std::stop_token request_begins(const base::Json& id);
  /// True where the client gave a waiting request up.
  bool was_cancelled(const base::Json& id);

 private:
  void read(int descriptor, const std::stop_token& stop);
  void take_in(class FrameReader& frames);
  void put(Incoming incoming);
  void note(const base::Json& message);

  std::mutex mutex_;
  std::condition_variable arrived_;
  std::deque<Incoming> waiting_;
  std::deque<std::string> cancelled_;
  std::stop_source check_, request_;
  std::string request_id_;
  int wake_[2] = {-1, -1};
  std::jthread reader_;
};

}  // namespace gill::language_server
