// Any bytes as a client's messages, behind an `initialize`: the server answers, or tells what is wrong, and
// ends when its input does. What it sends is whole messages of JSON.
#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>

#include "language_server/framing.h"
#include "language_server/server.h"

namespace {

/// A file in memory with these bytes, to be read from its beginning.
int file_of(const std::string& bytes) {
  int file = memfd_create("messages", MFD_CLOEXEC);
  if (file < 0 || ::write(file, bytes.data(), bytes.size()) != static_cast<ssize_t>(bytes.size()))
    std::abort();
  ::lseek(file, 0, SEEK_SET);
  return file;
}

std::string bytes_of(int file) {
  std::string bytes;
  char buffer[4096];
  ::lseek(file, 0, SEEK_SET);
  for (ssize_t count; (count = ::read(file, buffer, sizeof buffer)) > 0;)
    bytes.append(buffer, static_cast<std::size_t>(count));
  return bytes;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gill::language_server;
  std::string begin = R"({"jsonrpc":"2.0","id":0,"method":"initialize","params":{"capabilities":{}}})";
  int input = file_of(framed(begin) + std::string(reinterpret_cast<const char*>(data), size));
  int output = file_of({});
  int status = serve(input, output, "fuzz");
  FrameReader sent;
  sent.add(bytes_of(output));
  ::close(input);
  ::close(output);
  while (auto frame = sent.next())
    if (!frame->trouble.empty() || !nlohmann::json::accept(frame->content)) {
      std::fprintf(stderr, "sent: %s\n", frame->content.c_str());
      std::abort();
    }
  if (status != 0 && status != 1) std::abort();
  return 0;
}
