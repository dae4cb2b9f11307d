#include "diff/program.h"

#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace gill::testing {

namespace fs = std::filesystem;

namespace {

std::string read_file(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

void set_environment() {
  setenv("GIT_CONFIG_GLOBAL", "/dev/null", 1);
  setenv("GIT_CONFIG_SYSTEM", "/dev/null", 1);
  setenv("GIT_PAGER", "cat", 1);
  setenv("TZ", "UTC", 1);
  setenv("HOME", "/nonexistent", 1);
  for (auto* who : {"AUTHOR", "COMMITTER"}) {
    setenv((std::string("GIT_") + who + "_NAME").c_str(), "Bar", 1);
    setenv((std::string("GIT_") + who + "_EMAIL").c_str(), "bar@example.org", 1);
  }
}

}  // namespace

Ran run(const fs::path& folder, const std::vector<std::string>& words) {
  TemporaryFolder scratch;
  fs::path out = scratch.path() / "out", err = scratch.path() / "err";
  pid_t child = fork();
  if (child < 0) throw std::runtime_error("cannot fork");
  if (child == 0) {
    std::vector<char*> arguments;
    for (const auto& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    set_environment();
    bool ready = chdir(folder.c_str()) == 0 && freopen(out.c_str(), "w", stdout) &&
                 freopen(err.c_str(), "w", stderr) && freopen("/dev/null", "r", stdin);
    if (ready) execvp(arguments[0], arguments.data());
    _exit(127);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return {read_file(out), read_file(err), WIFEXITED(status) ? WEXITSTATUS(status) : -1};
}

Ran run_shell(const fs::path& folder, const std::string& line) { return run(folder, {"sh", "-c", line}); }

Ran run_gill(const fs::path& folder, std::vector<std::string> words) {
  words.insert(words.begin(), GILL_PROGRAM);
  return run(folder, words);
}

TemporaryFolder::TemporaryFolder() {
  std::string name = (fs::temp_directory_path() / "gill-test-XXXXXX").string();
  if (!mkdtemp(name.data())) throw std::runtime_error("cannot make a folder");
  path_ = fs::canonical(name);
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

void TemporaryFolder::write(const std::string& name, const std::string& text) const {
  fs::path path = path_ / name;
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}

std::string TemporaryFolder::read(const std::string& name) const { return read_file(path_ / name); }

}  // namespace gill::testing
