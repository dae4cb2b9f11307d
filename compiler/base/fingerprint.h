#pragma once
#include <cstdint>
#include <string_view>

namespace gill::base {

/// FNV-1a, 64 bits (the hash of the IETF draft `The FNV Non-Cryptographic Hash Algorithm`): tells contents
/// apart, nothing more is asked of it.
class Fingerprint {
 public:
  /// Adds a text; texts do not run together.
  void add(std::string_view text) {
    for (char c : text) put(static_cast<unsigned char>(c));
    put(0);
  }
  std::uint64_t value() const { return value_; }

 private:
  void put(unsigned char byte) { value_ = (value_ ^ byte) * 0x100000001b3U; }
  std::uint64_t value_ = 0xcbf29ce484222325U;
};

}  // namespace gill::base
