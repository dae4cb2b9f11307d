#include "language_server/server.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <unordered_map>

#include "language_server/abilities.h"
#include "language_server/framing.h"

namespace gill::language_server {
namespace {

/// Long names from strangers are told in part.
std::string shown(std::string text) {
  constexpr std::size_t most = 100;
  if (text.size() > most) text.resize(most);
  return text;
}

class Server {
 public:
  Server(int input, int output, std::string version)
      : output_(output),
        version_(std::move(version)),
        inbox_(input),
        session_([this](const Json& message) { send(message); }) {
    for (const auto* table : {&name_requests(), &typing_requests(), &page_requests()})
      for (const auto& request : *table) requests_.emplace(request.method, request.answer);
    notifications_ = {
        {"textDocument/didOpen", &Server::did_open},
        {"textDocument/didChange", &Server::did_change},
        {"textDocument/didClose", &Server::did_close},
        {"textDocument/didSave", &Server::did_save},
        {"initialized", &Server::did_initialize},
        {"workspace/didChangeWatchedFiles", &Server::did_change_files},
    };
  }

  int serve() {
    while (!exit_status_) {
      if (!inbox_.has_waiting() && check_one()) continue;
      take(inbox_.take());
    }
    return *exit_status_;
  }

 private:
  enum class Phase { before, running, shut_down };

  // ---- what goes out

  void send(const Json& message) {
    auto bytes = framed(message.dump(-1, ' ', false, Json::error_handler_t::replace));
    for (std::string_view left = bytes; !left.empty();) {
      auto written = ::write(output_, left.data(), left.size());
      if (written < 0 && errno == EINTR) continue;
      // Nobody reads any more.
      if (written <= 0) return void(exit_status_ = 1);
      left.remove_prefix(static_cast<std::size_t>(written));
    }
  }

  void answer(const Json& id, Json result) {
    send({{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}});
  }
  void refuse(const Json& id, ErrorCode code, const std::string& why) {
    send({{"jsonrpc", "2.0"}, {"id", id}, {"error", {{"code", static_cast<int>(code)}, {"message", why}}}});
  }

  // ---- what comes in

  void take(const Incoming& incoming) {
    switch (incoming.kind) {
      case Incoming::Kind::end:
        exit_status_ = 1;
        return;
      case Incoming::Kind::broken:
        return refuse(nullptr, ErrorCode::parse_error, shown(incoming.why));
      case Incoming::Kind::message:
        break;
    }
    const Json& message = incoming.message;
    bool has_id = message.is_object() && message.contains("id");
    Json id = has_id ? message["id"] : Json(nullptr);
    bool has_method = message.is_object() && message.contains("method") && message["method"].is_string();
    bool is_answer = has_id && !has_method && (message.contains("result") || message.contains("error"));
    if (is_answer) return;
    if (!has_method || (has_id && !id.is_string() && !id.is_number() && !id.is_null()))
      return refuse(nullptr, ErrorCode::invalid_request, "a message is an object with a method");
    auto method = message["method"].get<std::string>();
    Json params = message.contains("params") ? message["params"] : Json::object();
    if (has_id)
      take_request(id, method, params);
    else
      take_notification(method, params);
  }

  void take_request(const Json& id, const std::string& method, const Json& params) {
    if (phase_ == Phase::before && method != "initialize")
      return refuse(id, ErrorCode::server_not_initialized, "the server waits for `initialize`");
    if (phase_ == Phase::shut_down) return refuse(id, ErrorCode::invalid_request, "the server is shut down");
    try {
      if (method == "initialize") return initialize(id, params);
      if (method == "shutdown") return phase_ = Phase::shut_down, answer(id, nullptr);
      auto found = requests_.find(method);
      if (found == requests_.end())
        return refuse(id, ErrorCode::method_not_found, fmt::format("there is no method {}", shown(method)));
      if (inbox_.was_cancelled(id))
        return refuse(id, ErrorCode::request_cancelled, "the request was given up");
      session_.request_stop = inbox_.request_begins(id);
      answer(id, found->second(session_, params));
    } catch (const ProtocolError& error) {
      refuse(id, error.code, error.what());
    } catch (const Json::exception& error) {
      refuse(id, ErrorCode::invalid_params, shown(error.what()));
    } catch (const std::exception& error) {
      refuse(id, ErrorCode::internal_error, shown(error.what()));
    }
  }

  void initialize(const Json& id, const Json& params) {
    if (phase_ != Phase::before) return refuse(id, ErrorCode::invalid_request, "`initialize` comes once");
    session_.client = abilities_of(params);
    phase_ = Phase::running;
    answer(id, server_abilities(session_.client, version_));
  }

  void take_notification(const std::string& method, const Json& params) {
    if (method == "exit") return void(exit_status_ = phase_ == Phase::shut_down ? 0 : 1);
    if (phase_ != Phase::running) return;
    auto found = notifications_.find(method);
    if (found == notifications_.end()) return;
    try {
      (this->*found->second)(params);
    } catch (const std::exception& error) {
      // A notification has no answer; the person can read it in the log.
      session_.notify("window/logMessage",
                      {{"type", 1}, {"message", fmt::format("{}: {}", method, shown(error.what()))}});
    }
  }

  // ---- notifications

  void did_initialize(const Json&) {
    if (!session_.client.watches_files) return;
    Json watchers = Json::array({{{"globPattern", "**/*.gill"}}});
    Json registration{{"id", "gill-files"},
                      {"method", "workspace/didChangeWatchedFiles"},
                      {"registerOptions", {{"watchers", watchers}}}};
    session_.ask("client/registerCapability", {{"registrations", Json::array({registration})}});
  }

  void did_open(const Json& params) {
    auto& house = session_.houses.of(session_.documents.open(params.at("textDocument")));
    house.touch();
  }

  void did_change(const Json& params) {
    const auto& item = params.at("textDocument");
    auto* document =
        session_.documents.change(item.at("uri").get<std::string>(), item.value("version", std::int64_t{0}),
                                  params.at("contentChanges"), session_.client.encoding);
    if (document) session_.houses.of(*document).touch();
  }

  void did_close(const Json& params) {
    auto uri = params.at("textDocument").at("uri").get<std::string>();
    auto* house = session_.documents.find(uri) ? session_.houses.find(uri) : nullptr;
    session_.documents.close(uri);
    session_.told_tokens.erase(uri);
    if (house) house->touch_disk();
    session_.forget_unused();
  }

  // A file that is new, or gone, may make another house of what is open.
  void did_save(const Json&) { look_at_disk(); }
  void did_change_files(const Json&) { look_at_disk(); }

  void look_at_disk() {
    session_.houses.touch_disk();
    session_.forget_unused();
  }

  // ---- checks

  /// Checks one house that needs it; false where none does.
  bool check_one() {
    for (auto& [key, house] : session_.houses.all()) {
      if (!house->needs_check()) continue;
      try {
        session_.check(*house, inbox_.check_begins());
      } catch (const std::exception& error) {
        house->was_checked();
        session_.notify("window/logMessage", {{"type", 1}, {"message", shown(error.what())}});
      }
      return true;
    }
    return false;
  }

  using Notified = void (Server::*)(const Json&);

  int output_;
  std::string version_;
  Inbox inbox_;
  Session session_;
  Phase phase_ = Phase::before;
  std::optional<int> exit_status_;
  std::unordered_map<std::string_view, Json (*)(Session&, const Json&)> requests_;
  std::unordered_map<std::string_view, Notified> notifications_;
};

}  // namespace

int serve(int input, int output, const std::string& version) {
  return Server(input, output, version).serve();
}

}  // namespace gill::language_server
