#pragma once
#include <tao/pegtl.hpp>

/// The grammar of one line of Gill text, from characters up to the line. A file is its lines; which lines
/// belong to a declaration, and what a line means there, are questions for later stages (compiler/syntax,
/// compiler/analysis). Rules only: actions hang on the named ones in compiler/syntax/actions.h. The language
/// is described in guide/.
namespace gill::grammar {

namespace pegtl = tao::pegtl;
using namespace pegtl;

// clang-format off

// ---- characters

struct no_break_space : pegtl::utf8::one<0xa0> {};
struct space          : sor<one<' ', '\t', '\r'>, no_break_space> {};
struct spaces         : star<space> {};
struct digits         : plus<digit> {};

/// Any letter, mark or digit of a script beyond ASCII: what is left when punctuation, arrows, mathematical signs,
/// fractions and pictures are taken out.
struct other_script   : pegtl::utf8::ranges<0x00c0, 0x00d6, 0x00d8, 0x00f6, 0x00f8, 0x1fff, 0x2019, 0x2019,
                                            0x2c00, 0x2fff, 0x3004, 0xfeff, 0xff10, 0x1efff, 0x20000, 0x3ffff> {};
struct latin_ordinal  : pegtl::utf8::one<0x00aa, 0x00ba, 0x00b5> {};
struct degree         : pegtl::utf8::one<0x00b0> {};

struct dot            : seq<one<'.'>, not_at<one<'.'>>> {};
struct hyphen         : seq<one<'-'>, not_at<one<'>'>>> {};
struct slash          : one<'/'> {};
struct word_start     : sor<alpha, other_script, latin_ordinal, degree, one<'\'', '&', '(', ')'>, dot, hyphen, slash> {};
struct word_char      : sor<word_start, digit> {};

// ---- numbers

struct minus          : sor<one<'-'>, pegtl::utf8::one<0x2212>> {};
struct vulgar         : sor<pegtl::utf8::range<0x00bc, 0x00be>, pegtl::utf8::range<0x2150, 0x215e>> {};
struct slash_fraction : seq<digits, one<'/'>, digits> {};
struct decimal        : sor<seq<digits, opt<one<'.'>, digits>>, seq<one<'.'>, digits>> {};
struct mixed          : seq<digits, sor<seq<spaces, vulgar>, seq<plus<space>, slash_fraction>>> {};
struct plain_number   : sor<mixed, slash_fraction, vulgar, decimal> {};
struct number         : seq<opt<minus>, plain_number> {};

/// `2026-09-15`
struct date           : seq<rep<4, digit>, one<'-'>, rep<2, digit>, one<'-'>, rep<2, digit>, not_at<digit>> {};
/// `9:30` inside a name
struct clock          : seq<digits, one<':'>, digits, star<word_char>> {};

// What people write for numbers and the language does not: each has its own message.
struct dash           : sor<one<'-'>, pegtl::utf8::range<0x2012, 0x2014>> {};
struct dashed_mixed   : seq<digits, one<'-'>, slash_fraction> {};
struct dashed_range   : seq<plain_number, spaces, dash, spaces, plain_number> {};
struct comma_number   : seq<digits, plus<one<','>, digits>, opt<one<'.'>, digits>> {};

// ---- items

/// A colon stands inside a word between digits: `(1:1)`.
struct ratio_colon    : seq<digit, one<':'>, at<digit>> {};
struct word           : seq<word_start, star<sor<ratio_colon, word_char>>> {};
struct string         : seq<one<'"'>, star<not_one<'"'>>, one<'"'>> {};
struct open_string    : seq<one<'"'>, star<any>> {};
struct curly_quote    : pegtl::utf8::one<0x201c, 0x201d, 0x201e, 0x00ab, 0x00bb> {};
struct curly_string   : seq<curly_quote, star<not_at<curly_quote>, pegtl::utf8::any>, opt<curly_quote>> {};
struct comma          : one<','> {};
struct equals         : one<'='> {};
struct colon          : one<':'> {};
struct percent        : one<'%'> {};
struct arrow          : sor<pegtl::string<'-', '>'>, pegtl::utf8::one<0x2192>> {};
struct dots           : sor<pegtl::string<'.', '.'>, pegtl::utf8::one<0x2026>> {};
struct plus_minus     : sor<pegtl::utf8::one<0xb1>, pegtl::string<'+', '-'>, pegtl::string<'+', '/', '-'>> {};
/// `#D98C2B`; whether its digits are right is for the reader to say.
struct colour         : seq<one<'#'>, plus<word_char>> {};
struct stray          : sor<pegtl::utf8::any, any> {};

struct token           : sor<date, clock, dashed_mixed, comma_number, dashed_range, plus_minus, arrow, dots, number, word,
                            string, open_string, curly_string, comma, equals, colon, percent, stray> {};

// ---- lines

struct comment        : seq<one<'#'>, star<any>> {};
/// A comment starts after white space; directly after a word a `#` is a stray character.
struct tail_comment   : seq<plus<space>, comment> {};
struct tokens          : star<not_at<tail_comment>, spaces, not_at<eof>, token> {};
struct line_end       : seq<opt<tail_comment>, spaces, eof> {};

/// `colour #D98C2B`: here a `#` starts no comment.
struct colour_keyword : seq<istring<'c', 'o', 'l', 'o'>, opt<one<'u', 'U'>>, one<'r', 'R'>> {};
struct colour_word    : seq<colour_keyword, not_at<word_char>> {};
// Looked at first, since a rule that is tried and given up has already told its action.
struct colour_items   : seq<at<colour_word, plus<space>, colour>, colour_word, plus<space>, colour> {};

struct text_content   : star<any> {};
struct text_line      : seq<spaces, one<'|'>, opt<one<' '>>, text_content> {};
struct comment_line   : seq<spaces, comment, eof> {};
struct blank_line     : seq<spaces, eof> {};
struct item_line      : seq<spaces, opt<colour_items>, tokens, line_end> {};

struct line           : sor<blank_line, comment_line, text_line, item_line> {};

// clang-format on

}  // namespace gill::grammar
