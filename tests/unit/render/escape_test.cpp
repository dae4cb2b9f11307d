#include <cmark.h>

#include <catch2/catch.hpp>
#include <cstdlib>

#include "render/html/escape.h"
#include "render/markdown/escape.h"

using namespace gill::render;

namespace {

/// What CommonMark makes of a text, by the reference implementation.
std::string rendered(const std::string& text) {
  char* html = cmark_markdown_to_html(text.data(), text.size(), CMARK_OPT_UNSAFE);
  std::string result(html);
  std::free(html);
  return result;
}

/// A paragraph of plain text as the reference implementation writes it in HTML.
std::string as_html_paragraph(const std::string& text) {
  cmark_node* paragraph = cmark_node_new(CMARK_NODE_PARAGRAPH);
  cmark_node* words = cmark_node_new(CMARK_NODE_TEXT);
  cmark_node_set_literal(words, text.c_str());
  cmark_node_append_child(paragraph, words);
  char* html = cmark_render_html(paragraph, CMARK_OPT_DEFAULT);
  std::string result(html);
  std::free(html);
  cmark_node_free(paragraph);
  return result;
}

}  // namespace

TEST_CASE("what HTML would take for markup is written as references", "[render]") {
  CHECK(html::escape("<script>&\"'") == "&lt;script&gt;&amp;&quot;&#39;");
  CHECK(html::escape("Écheveau – 22.5 ml") == "Écheveau – 22.5 ml");
}

// CommonMark 0.30, chapter "Backslash escapes": an escaped punctuation character is that character.
TEST_CASE("escaped text comes out of CommonMark as it went in", "[render]") {
  for (const char* text : {"<script>alert(1)</script>",
                           "[x](javascript:alert(1))",
                           "![x](http://example.org/a.png)",
                           "*a* _b_ `c` ~~d~~",
                           "a | b",
                           "# not a heading",
                           "- no item",
                           "+ no item",
                           "1. no item",
                           "12) no item",
                           "> no quote",
                           "=== no rule",
                           "--- no rule",
                           "&amp; &#60;",
                           "a\\b",
                           "Soot & Spindle",
                           "1 1/2 oz",
                           "Meet Me (at Nine)",
                           "\"quoted\"",
                           "***",
                           "2 * 3",
                           "<https://example.org>",
                           "a_b_c",
                           "[ref]: javascript:alert(1)",
                           "`` ` ``"}) {
    INFO(text);
    CHECK(rendered(markdown::escape(text, true)) == as_html_paragraph(text));
  }
}

TEST_CASE("text stays readable where it needs no escapes", "[render]") {
  CHECK(markdown::escape("Doffer's Bowl, 22.5 ml (¾ oz) - cold.", false) ==
        "Doffer's Bowl, 22.5 ml (¾ oz) - cold.");
  CHECK(markdown::escape("Soot & Spindle", true) == "Soot & Spindle");
}

TEST_CASE("a line break in a text cannot begin a new block", "[render]") {
  CHECK(markdown::escape("a\n# b", true) == "a # b");
}
