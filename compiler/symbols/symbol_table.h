#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/id.h"
#include "diagnostics/diagnostic.h"
#include "syntax/tree.h"

namespace gill::symbols {

enum class DeclarationKind : std::uint8_t {
  house,
  unit,
  ingredient,
  prep,
  glass,
  ice,
  family,
  drink,
  prices,
  menu
};

/// The keyword that starts a declaration of this kind.
std::string_view keyword_of(DeclarationKind kind);

/// The sets of names: ingredients and preps share one, every other kind has its own.
enum class NameSpace : std::uint8_t { house, unit, stock, glass, ice, family, drink, prices, menu };
inline constexpr std::size_t name_space_count = static_cast<std::size_t>(NameSpace::menu) + 1;
NameSpace name_space_of(DeclarationKind kind);
/// What a name of that set is called in a message: `ingredient or prep`, `glass`.
std::string_view noun_of(NameSpace space);

struct Declaration;
using DeclarationId = base::Id<Declaration>;

struct Alias {
  std::string name;
  source::Span span;
};

/// A declaration's header, resolved. Its body is in the tree of its file.
struct Declaration {
  DeclarationKind kind;
  std::string name;
  source::Span name_span;
  bool from_library;
  std::size_t file_index;
  std::size_t declaration_index;
  std::vector<Alias> aliases;
  /// The declaration that this one is `like`.
  DeclarationId like;
  source::Span like_span;
  /// As it is written, whoever it means.
  std::string like_name = {};
  /// For a unit: the item of the header at which its definition begins.
  std::size_t definition_item = 0;
};

/// What was asked of a table while one declaration was read: as long as these names mean the same, the
/// answers are the same.
struct AskedNames {
  /// The sets and folded names that were looked for, found or not, each as a number (`number_of`).
  std::vector<std::uint64_t> names;
  /// Suggestions that were asked for: they hang on every name there is.
  int questions = 0;
  /// Of them those that were no more answered.
  int refused = 0;
  bool same_words = false;

  bool hangs_on_every_name() const { return same_words || questions > 0; }
};

/// The number by which `AskedNames` keeps a name of a set.
std::uint64_t number_of(NameSpace space, std::string_view folded);

/// All declarations of a house and the standard library, and who is meant by a name.
class SymbolTable {
 public:
  /// Where it is noted what is asked from now on; null where nobody wants to know.
  void note_in(AskedNames* asked) const { asked_ = asked; }
  /// How many suggestions it still makes, and so many from now on.
  int questions_left() const { return questions_left_; }
  void allow_questions(int count) const { questions_left_ = count; }

  /// The declaration of that name (or alias) in a set; a house's beats the library's.
  DeclarationId find(NameSpace space, std::string_view name) const;
  /// The same for a name that is folded already.
  DeclarationId find_folded(NameSpace space, const std::string& folded) const;
  /// The known name nearest to a misspelt one; nothing where none is near. Gives up after a hundred
  /// questions: a file of nonsense costs no hours.
  std::optional<std::string> nearest(NameSpace space, std::string_view name) const;
  /// The known name of the same words in another order; nothing where none has them.
  std::optional<std::string> same_words(NameSpace space, std::string_view name) const;

  const Declaration& operator[](DeclarationId id) const { return declarations_[id.index()]; }
  std::size_t size() const { return declarations_.size(); }
  /// Every declaration, each after the one that it is `like`; those in a circle are left out.
  const std::vector<DeclarationId>& in_order() const { return order_; }

 private:
  friend class Declarer;
  std::vector<Declaration> declarations_;
  std::vector<DeclarationId> order_;
  std::unordered_map<std::string, DeclarationId> names_of_house_[name_space_count];
  std::unordered_map<std::string, DeclarationId> names_of_library_[name_space_count];

  /// What suggestions are looked up in; made when the first is asked for.
  struct Index {
    struct Name {
      std::string folded;
      std::uint64_t bytes;  ///< `base::bytes_in` of it
      DeclarationId id;
    };
    /// Every name of the set, in order.
    std::vector<Name> names;
    /// The same by their words in alphabetical order.
    std::unordered_map<std::string, DeclarationId> by_words;
  };
  const Index& index_of(NameSpace space) const;
  mutable std::array<std::optional<Index>, name_space_count> index_;
  mutable int questions_left_ = 100;
  mutable AskedNames* asked_ = nullptr;
};

/// Reads every header and `aka` line; reports `unknown-word`, `bad-line`, `duplicate-name`, `unknown-name`
/// (of a `like`) and `name-cycle`. `files[i]` belongs to the library when its source says so.
SymbolTable declare(const std::vector<syntax::File>& files, const source::SourceSet& sources,
                    diagnostics::DiagnosticSink& sink);

/// After an edit of one file: takes the new places of its headers and `aka` lines where nothing else of them
/// has changed. False, and nothing is taken, where a name, a `like` or the order of the declarations differs,
/// or a header is in error.
bool renew_places(SymbolTable& names, std::size_t file_index, const std::vector<syntax::File>& files,
                  const source::SourceSet& sources);

/// The table as plain text, for `gill dump names`: the declarations that are not the library's.
std::string dump(const SymbolTable& names, const source::SourceSet& sources);

}  // namespace gill::symbols
