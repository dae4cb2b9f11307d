#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "base/json.h"
#include "language_server/text_positions.h"

namespace gill::language_server {

/// A text as the editor has it, saved or not.
struct Document {
  std::string uri;
  /// Empty where it is no file.
  std::string path;
  /// The same where links are followed as far as they go.
  std::string real_path;
  std::string text;
  std::int64_t version = 0;
};

/// A position as a message has it; what is below 0 or beyond any text is the nearest that there is.
Position position_in(const base::Json& value);

/// Where a path leads when links are followed as far as they go.
std::string real_path(const std::string& path);

/// The documents that are open.
class Documents {
 public:
  Document& open(const base::Json& item);
  /// Puts the changes in, one after the other; null for a document that is not open.
  Document* change(const std::string& uri, std::int64_t version, const base::Json& changes,
                   Encoding encoding);
  std::optional<Document> close(const std::string& uri);

  const Document* find(const std::string& uri) const;
  const Document* at_path(const std::string& path) const;
  const std::map<std::string, Document>& all() const { return open_; }

 private:
  std::map<std::string, Document> open_;
  std::map<std::string, std::string> uri_by_path_;
};

}  // namespace gill::language_server
