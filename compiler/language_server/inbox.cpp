#include "language_server/inbox.h"

#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>

#include "language_server/framing.h"

namespace gill::language_server {

using base::Json;

namespace {

/// Requests that were given up and never came: more are forgotten.
constexpr std::size_t most_cancelled = 1000;

std::string text_of(const Json& id) { return id.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string method_of(const Json& message) {
  if (!message.is_object()) return {};
  auto method = message.find("method");
  return method != message.end() && method->is_string() ? method->get<std::string>() : std::string();
}

}  // namespace

Inbox::Inbox(int descriptor) {
  if (pipe2(wake_, O_CLOEXEC) != 0) wake_[0] = wake_[1] = -1;
  reader_ = std::jthread([this, descriptor](const std::stop_token& stop) { read(descriptor, stop); });
}

Inbox::~Inbox() {
  reader_.request_stop();
  // The reader may wait for bytes that never come.
  if (wake_[1] >= 0) [[maybe_unused]]
    auto written = ::write(wake_[1], "!", 1);
  reader_.join();
  for (int end : wake_)
    if (end >= 0) ::close(end);
}

void Inbox::read(int descriptor, const std::stop_token& stop) {
  FrameReader frames;
  std::array<char, 65536> buffer;
  while (!stop.stop_requested()) {
    std::array<pollfd, 2> watched{{{descriptor, POLLIN, 0}, {wake_[0], POLLIN, 0}}};
    if (::poll(watched.data(), watched.size(), -1) < 0 && errno != EINTR) break;
    if (stop.stop_requested()) return;
    if (watched[0].revents == 0) continue;
    auto count = ::read(descriptor, buffer.data(), buffer.size());
    if (count < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (count <= 0) break;
    frames.add({buffer.data(), static_cast<std::size_t>(count)});
    take_in(frames);
  }
  put({Incoming::Kind::end});
}

void Inbox::take_in(FrameReader& frames) {
  while (auto frame = frames.next()) {
    if (!frame->trouble.empty()) {
      put({Incoming::Kind::broken, {}, std::move(frame->trouble)});
      continue;
    }
    try {
      Json message = Json::parse(frame->content);
      note(message);
      put({Incoming::Kind::message, std::move(message)});
    } catch (const std::exception& error) {
      // A length that is too large took in the header of the next message.
      frames.give_back(frame->content);
      put({Incoming::Kind::broken, {}, error.what()});
    }
  }
}

void Inbox::put(Incoming incoming) {
  {
    std::lock_guard lock(mutex_);
    if (incoming.kind == Incoming::Kind::end) check_.request_stop();
    waiting_.push_back(std::move(incoming));
  }
  arrived_.notify_one();
}

/// Sees at once what makes a check that is under way useless, or waits for no check while somebody types.
void Inbox::note(const Json& message) {
  std::string method = method_of(message);
  std::lock_guard lock(mutex_);
  for (const char* stale :
       {"textDocument/didChange", "textDocument/didOpen", "textDocument/didClose", "textDocument/completion",
        "textDocument/signatureHelp", "completionItem/resolve", "shutdown", "exit"})
    if (method == stale) check_.request_stop();
  if (method != "$/cancelRequest" || !message.contains("params") || !message["params"].contains("id")) return;
  std::string id = text_of(message["params"]["id"]);
  if (id == request_id_) request_.request_stop();
  cancelled_.push_back(std::move(id));
  if (cancelled_.size() > most_cancelled) cancelled_.pop_front();
}

Incoming Inbox::take() {
  std::unique_lock lock(mutex_);
  arrived_.wait(lock, [this] { return !waiting_.empty(); });
  auto incoming = std::move(waiting_.front());
  waiting_.pop_front();
  return incoming;
}

bool Inbox::has_waiting() {
  std::lock_guard lock(mutex_);
  return !waiting_.empty();
}

std::stop_token Inbox::check_begins() {
  std::lock_guard lock(mutex_);
  check_ = std::stop_source();
  if (!waiting_.empty()) check_.request_stop();
  return check_.get_token();
}

std::stop_token Inbox::request_begins(const Json& id) {
  std::lock_guard lock(mutex_);
  request_ = std::stop_source();
  request_id_ = text_of(id);
  return request_.get_token();
}

bool Inbox::was_cancelled(const Json& id) {
  std::lock_guard lock(mutex_);
  return std::erase(cancelled_, text_of(id)) > 0;
}

}  // namespace gill::language_server
