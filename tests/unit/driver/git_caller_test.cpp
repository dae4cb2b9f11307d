// What git was asked to compare, off its command line: git-diff(1), "SYNOPSIS" and "OPTIONS".
#include <catch2/catch.hpp>

#include "driver/git_caller.h"

using gill::driver::read_git_command;
using Words = std::vector<std::string>;

TEST_CASE("the sides of a git diff are read off its line", "[git]") {
  auto asked = [](Words words) {
    words.insert(words.begin(), "/usr/bin/git");
    return read_git_command(words);
  };
  CHECK(asked({"diff"})->revisions.empty());
  CHECK(asked({"diff", "HEAD~2", "HEAD"})->revisions == Words{"HEAD~2", "HEAD"});
  CHECK(asked({"diff", "winter..", "--", "bar/x.gill"})->revisions == Words{"winter", "HEAD"});
  CHECK(asked({"-C", "/x y", "-c", "a=b", "--no-pager", "diff", "--stat", "-U", "3", "winter"})->revisions ==
        Words{"winter"});
  CHECK(asked({"diff", "--cached", "winter"})->is_cached);
  CHECK(asked({"diff", "--staged"})->is_cached);
  auto since = asked({"diff", "main...trial"});
  CHECK(since->revisions == Words{"main", "trial"});
  CHECK(since->from_merge_base);
  CHECK_FALSE(asked({"diff", "main..trial"})->from_merge_base);
  CHECK_FALSE(asked({"show", "HEAD"}));
  CHECK_FALSE(asked({"log", "-p"}));
  CHECK_FALSE(asked({}));
  CHECK_FALSE(read_git_command({}));
}
