#pragma once
#include "language_server/session.h"

namespace gill::language_server {

/// What a client says of itself in `initialize`; what it leaves out it cannot do.
ClientAbilities abilities_of(const Json& params);

/// What the server says of itself in answer.
Json server_abilities(const ClientAbilities& client, const std::string& version);

}  // namespace gill::language_server
