#include "driver/unified_diff.h"

#include "driver/git_objects.h"

namespace gill::driver {

std::string unified_diff(const std::string& path, std::string_view before, std::string_view after) {
  if (before == after) return {};
  git_libgit2_init();
  std::string text;
  const git_diff_options options = git::usual_diff_options();
  git_patch* made = nullptr;
  if (git_patch_from_buffers(&made, before.data(), before.size(), path.c_str(), after.data(), after.size(),
                             path.c_str(), &options) == 0) {
    git::Owned<git_patch, git_patch_free> patch(made);
    git_buf buffer = GIT_BUF_INIT;
    if (git_patch_to_buf(&buffer, patch.get()) == 0) text.assign(buffer.ptr, buffer.size);
    git_buf_dispose(&buffer);
  }
  git_libgit2_shutdown();
  return text;
}

}  // namespace gill::driver
