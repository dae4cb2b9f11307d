#pragma once
#include <string>

/// `gill lsp`: the Language Server Protocol 3.17.
namespace gill::language_server {

/// Serves one client that writes to a descriptor and reads from another, until it says `exit` or goes away.
/// `version` is told to it. The exit status: 0 after `shutdown` and `exit`, 1 else.
int serve(int input, int output, const std::string& version);

}  // namespace gill::language_server
