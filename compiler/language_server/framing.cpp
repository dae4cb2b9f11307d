#include "language_server/framing.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "base/text.h"

namespace gill::language_server {
namespace {

constexpr std::string_view length_key = "Content-Length:";
constexpr std::string_view header_end = "\r\n\r\n";
/// No message of an editor is longer; a length beyond it is a mistake.
constexpr std::size_t longest_message = std::size_t{256} << 20;
/// A header of more bytes is none.
constexpr std::size_t longest_header = 4096;

std::size_t find_key(std::string_view text, std::size_t from) {
  auto same = [](char a, char b) { return (a | 0x20) == (b | 0x20); };
  auto found = std::search(text.begin() + static_cast<std::ptrdiff_t>(std::min(from, text.size())),
                           text.end(), length_key.begin(), length_key.end(), same);
  return found == text.end() ? std::string_view::npos : static_cast<std::size_t>(found - text.begin());
}

/// The length that a header states; nothing where it states none.
std::optional<std::size_t> length_in(std::string_view header) {
  auto key = find_key(header, 0);
  if (key == std::string_view::npos || (key > 0 && header[key - 1] != '\n')) return std::nullopt;
  auto value = header.substr(key + length_key.size());
  value = base::trim(value.substr(0, value.find('\r')));
  std::size_t length = 0;
  auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), length);
  if (error != std::errc() || end != value.data() + value.size() || value.empty()) return std::nullopt;
  return length;
}

}  // namespace

std::optional<FrameReader::Frame> FrameReader::skip_to_header(std::string trouble) {
  auto key = find_key(pending_, 1);
  if (key == std::string::npos) {
    // The key may have come in half.
    std::size_t kept = std::min(pending_.size(), length_key.size() - 1);
    pending_.erase(0, pending_.size() - kept);
    if (is_lost_) return std::nullopt;
    is_lost_ = true;
    return Frame{{}, std::move(trouble)};
  }
  pending_.erase(0, key);
  bool was_told = is_lost_;
  is_lost_ = false;
  if (was_told) return next();
  return Frame{{}, std::move(trouble)};
}

std::optional<FrameReader::Frame> FrameReader::next() {
  if (is_lost_) {
    if (find_key(pending_, 0) != 0) return skip_to_header({});
    is_lost_ = false;
  }
  auto end = pending_.find(header_end);
  if (end == std::string::npos) {
    if (pending_.size() <= longest_header) return std::nullopt;
    return skip_to_header("a message begins with a header that says its length, and these bytes have none");
  }
  auto length = length_in(std::string_view(pending_).substr(0, end));
  if (!length) return skip_to_header("the header of a message states no length that is a number");
  if (*length > longest_message)
    return skip_to_header(fmt::format("a message of {} bytes is longer than any that is read", *length));
  std::size_t begin = end + header_end.size();
  if (pending_.size() - begin < *length) return std::nullopt;
  Frame frame{pending_.substr(begin, *length), {}};
  pending_.erase(0, begin + *length);
  return frame;
}

bool FrameReader::give_back(std::string_view content) {
  auto key = find_key(content, 0);
  if (key == std::string_view::npos) return false;
  pending_.insert(0, content.substr(key));
  return true;
}

std::string framed(std::string_view content) {
  return fmt::format("Content-Length: {}\r\n\r\n{}", content.size(), content);
}

}  // namespace gill::language_server
