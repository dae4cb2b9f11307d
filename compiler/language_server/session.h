#pragma once
#include <functional>
#include <map>
#include <stdexcept>
#include <string>

#include "base/json.h"
#include "language_server/houses.h"
#include "language_server/inbox.h"
#include "language_server/reference_folder.h"

namespace gill::language_server {

using base::Json;

/// The codes of JSON-RPC 2.0 and of the protocol.
enum class ErrorCode : int {
  parse_error = -32700,
  invalid_request = -32600,
  method_not_found = -32601,
  invalid_params = -32602,
  internal_error = -32603,
  server_not_initialized = -32002,
  request_failed = -32803,
  request_cancelled = -32800,
};

/// A request that gets an error for its answer.
struct ProtocolError : std::runtime_error {
  ProtocolError(ErrorCode code, const std::string& message) : std::runtime_error(message), code(code) {}
  ErrorCode code;
};

/// What the client can do, as it said when it began.
struct ClientAbilities {
  Encoding encoding = Encoding::utf16;
  bool snippets = false;
  bool versioned_edits = false;
  bool related_places = false;
  bool rule_links = false;
  bool progress = false;
  bool watches_files = false;
  bool shows_documents = false;
  bool nested_symbols = false;
  /// It asked for pictures in what it shows on hover: no ability of the protocol says so.
  bool pictures = false;
};

/// A file of a house in which something is asked: the house compiled as it now is, the file's tree, and its
/// positions.
struct Asked {
  const editor::HouseView* view = nullptr;
  const syntax::File* file = nullptr;
  House* house = nullptr;
  std::uint32_t offset = 0;
};

/// A place in a text as the protocol writes it.
Json position_of(const TextPositions& positions, std::uint32_t offset);

/// All that the server knows of its client: open documents, their houses, and how to speak to it.
class Session {
 public:
  using Send = std::function<void(const Json&)>;
  explicit Session(Send send) : houses(documents), send_(std::move(send)) {}

  Documents documents;
  Houses houses;
  ClientAbilities client;
  ReferenceFolder reference;
  /// Asked to stop when the client gives up the request that is being answered.
  std::stop_token request_stop;

  void notify(const std::string& method, Json params);
  /// Asks the client something whose answer nobody needs.
  void ask(const std::string& method, Json params);

  /// The house around the document that the parameters name, compiled. Throws `ProtocolError` for a document
  /// that is not known, and when the client gives up meanwhile.
  Asked asked(const Json& params);
  /// The same with the offset of `position` in it.
  Asked asked_at(const Json& params);

  /// Forgets positions of a house that was compiled before.
  void begin_positions() { positions_.clear(); }

  // ---- places

  /// The positions of a compiled file; kept while one request is answered.
  const TextPositions& positions(const editor::HouseView& view, source::FileId file);
  Json position(const editor::HouseView& view, source::FileId file, std::uint32_t offset);
  Json range(const editor::HouseView& view, const source::Span& span);
  Json location(const editor::HouseView& view, House& house, const source::Span& span);
  std::uint32_t offset(const editor::HouseView& view, source::FileId file, const Json& position);
  std::string uri_of(const editor::HouseView& view, House& house, source::FileId file);
  /// Edits as the client takes them: with the versions of its documents where it knows these.
  Json workspace_edit(const editor::HouseView& view, House& house,
                      const std::vector<diagnostics::Edit>& edits);

  // ---- what is found

  /// Checks a house that needs it and tells what differs from what was told before; nothing when asked to
  /// stop.
  void check(House& house, const std::stop_token& stop);
  /// One finding as the protocol has it.
  Json diagnostic(const editor::HouseView& view, House& house, const diagnostics::Diagnostic& finding);
  /// Takes back what was told of files that no house holds any more.
  void forget_unused();

  /// Semantic tokens as they were last sent, by document, with the number of their state.
  std::map<std::string, std::pair<std::string, std::vector<std::uint32_t>>> told_tokens;
  std::uint64_t next_state = 1;

 private:
  void publish(House& house, const editor::HouseView& view);
  void tell(const std::string& uri, const std::string& house_key, Json findings,
            std::uint64_t fingerprint = 0);
  const editor::HouseView& compiled(House& house);

  Send send_;
  std::uint64_t next_request_ = 1;
  std::map<source::FileId, TextPositions> positions_;
  /// What was last told of a file: the fingerprints of the findings and of the message.
  struct Told {
    std::uint64_t findings = 0, message = 0;
  };
  /// By house and URI; only files with findings.
  std::map<std::string, std::map<std::string, Told>> told_;
};

/// What answers a request.
struct RequestHandler {
  std::string_view method;
  Json (*answer)(Session& session, const Json& params);
};
const std::vector<RequestHandler>& name_requests();
const std::vector<RequestHandler>& typing_requests();
const std::vector<RequestHandler>& page_requests();

}  // namespace gill::language_server
