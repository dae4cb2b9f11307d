// What each rule of the grammar takes whole, and what it does not.
#include "grammar/gill.h"

#include <catch2/catch.hpp>
#include <initializer_list>
#include <string_view>
#include <tao/pegtl/contrib/analyze.hpp>

namespace grammar = gill::grammar;

namespace {

template <typename Rule>
bool takes(std::string_view text) {
  grammar::pegtl::memory_input input(text.data(), text.size(), "test");
  return grammar::pegtl::parse<grammar::pegtl::seq<Rule, grammar::pegtl::eof>>(input);
}

template <typename Rule>
void accepts(std::initializer_list<std::string_view> texts) {
  for (auto text : texts) {
    INFO('"' << text << '"');
    CHECK(takes<Rule>(text));
  }
}

template <typename Rule>
void rejects(std::initializer_list<std::string_view> texts) {
  for (auto text : texts) {
    INFO('"' << text << '"');
    CHECK_FALSE(takes<Rule>(text));
  }
}

}  // namespace

TEST_CASE("the grammar has no endless loop and no left recursion", "[grammar]") {
  CHECK(tao::pegtl::analyze<grammar::line>() == 0);
}

TEST_CASE("white space is space, tab, carriage return and the non-breaking space", "[grammar]") {
  accepts<grammar::space>({" ", "\t", "\r", "\u00a0"});
  rejects<grammar::space>({"", "\n", "a", "\u2003", "\u200b"});
  accepts<grammar::spaces>({"", "   ", " \u00a0\t "});
}

TEST_CASE("numbers of the grammar", "[grammar]") {
  accepts<grammar::number>({"60", "22.5", ".75", "3/4", "1 1/2", "1\u00a01/2", "½", "1½", "1 ½", "-18", "−18",
                            "0", "⅐", "⅞", "⅒"});
  rejects<grammar::number>({"", ".", "1.", "1,5", "+5", "- 18", "1/", "/2", "1 2", "e3", "1..2", "½½"});
}

TEST_CASE("dates of the grammar", "[grammar]") {
  accepts<grammar::date>({"2026-09-15", "0001-01-01", "2026-99-99"});
  rejects<grammar::date>({"2026-9-15", "26-09-15", "2026-09-155", "2026/09/15", "2026-09"});
}

TEST_CASE("a colon between digits is part of a name", "[grammar]") {
  accepts<grammar::clock>({"9:30", "1:1", "9:30am"});
  rejects<grammar::clock>({"9:", ":30", "9 : 30", "a:1"});
}

TEST_CASE("words of the grammar", "[grammar]") {
  accepts<grammar::word>({"gin", "crème", "Siete’s", "sailor's", "&", "R&B", "A-1", "(hot)", "ml.", "g/100ml",
                          "°C", "柚子", "чай", "b52", "Nº", "/", "µm", "'til", "ﬁn"});
  rejects<grammar::word>({"",     "two words", "a,b", "a=b", "a:b", "\"a\"", "a%", "a→b", "a->b", "½",
                          "a..b", "a±b",       "a|b", "€",   "🍋",   "a*",    "#a", "×",   "“a”",  "9lives"});
}

TEST_CASE("what people write for numbers is told apart", "[grammar]") {
  accepts<grammar::dashed_mixed>({"1-1/2", "2-3/4"});
  rejects<grammar::dashed_mixed>({"1 1/2", "1-2", "1-½"});
  accepts<grammar::dashed_range>({"10-12", "10 - 12", "10–12", "10—12", "1.5-2", "1/2-3/4", "1 1/2-2"});
  rejects<grammar::dashed_range>({"10..12", "10-", "-12", "10 12"});
  accepts<grammar::comma_number>({"22,5", "1,000", "12,500,000", "1,000.50"});
  rejects<grammar::comma_number>({"22", "22,", ",5", "22, 5"});
}

TEST_CASE("strings of the grammar", "[grammar]") {
  accepts<grammar::string>({"\"\"", "\"a name\"", "\"60 ml # not a comment\""});
  rejects<grammar::string>({"\"", "\"open", "“curly”", "\"a\"b\""});
  accepts<grammar::open_string>({"\"", "\"open"});
  accepts<grammar::curly_string>({"“curly”", "„curly“", "«curly»", "“open"});
  rejects<grammar::curly_string>({"\"straight\""});
}

TEST_CASE("signs of the grammar", "[grammar]") {
  accepts<grammar::arrow>({"->", "→"});
  rejects<grammar::arrow>({"-", "=>", "-->"});
  accepts<grammar::dots>({"..", "…"});
  rejects<grammar::dots>({".", "..."});
  accepts<grammar::plus_minus>({"±", "+-", "+/-"});
  rejects<grammar::plus_minus>({"+", "-+"});
  accepts<grammar::colour>({"#D98C2B", "#abc", "#1"});
  rejects<grammar::colour>({"#", "# a", "D98C2B"});
}

TEST_CASE("lines of the grammar", "[grammar]") {
  accepts<grammar::blank_line>({"", "   ", "\t\u00a0"});
  accepts<grammar::comment_line>({"# a", "  # a", "#", "\u00a0#a"});
  rejects<grammar::comment_line>({"a # b", "| # b"});
  accepts<grammar::text_line>({"|", "| text", "  |text", "  | \"open", "  | # no comment"});
  rejects<grammar::text_line>({"a | b", "# | b"});
  accepts<grammar::item_line>(
      {"drink X", "  60 ml gin # mine", "  60 ml gin#mine", "  colour #D98C2B", "  \"open", "  ~ ^ ` ; !"});
}

TEST_CASE("every line is a line", "[grammar]") {
  accepts<grammar::line>({"",       " ",  "|",   "#",    "\"",     "->",       "..",         "...",
                          ".",      "-",  "%",   "±",    ",",      ",,,",      "=",          ":",
                          "1/0",    "½½", "a#b", "a #b", "colour", "colour #", "colour #zz", "colour red # x",
                          "\u00a0", "“",  "\x01"});
}
