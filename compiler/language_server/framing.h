#pragma once
#include <optional>
#include <string>
#include <string_view>

/// The base protocol: messages with a header that says how long they are.
namespace gill::language_server {

/// Takes bytes as they come and gives the messages in them. What is no header is passed over up to the next
/// one.
class FrameReader {
 public:
  /// One message, or why the bytes in front of the next one are none.
  struct Frame {
    std::string content;
    /// Empty for a message.
    std::string trouble;
  };

  void add(std::string_view bytes) { pending_ += bytes; }
  /// The next whole message; nothing while its end has not come.
  std::optional<Frame> next();
  /// Gives bytes back that a header with a wrong length made part of a message: from the next header in them
  /// on. True where there is one.
  bool give_back(std::string_view content);

 private:
  std::optional<Frame> skip_to_header(std::string trouble);
  std::string pending_;
  bool is_lost_ = false;
};

/// A message as it goes out.
std::string framed(std::string_view content);

}  // namespace gill::language_server
