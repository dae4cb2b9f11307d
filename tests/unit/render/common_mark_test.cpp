#include <catch2/catch.hpp>

#include "render/prose/common_mark.h"

using namespace gill::render::prose;
using Catch::Contains;

TEST_CASE("raw HTML in a text becomes words", "[render]") {
  std::string html = to_html("Pour.<script>alert(1)</script>\n\n<div onclick=\"x()\">slowly</div>", 3);
  CHECK_THAT(html, !Contains("<script"));
  CHECK_THAT(html, !Contains("<div"));
  CHECK_THAT(html, Contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
  CHECK_THAT(html, Contains("&lt;div onclick=&quot;x()&quot;&gt;slowly&lt;/div&gt;"));
  // Markdown that is made of it means the same words, not markup.
  std::string again = to_html(to_markdown("Pour.<script>alert(1)</script>", 3), 3);
  CHECK_THAT(again, !Contains("<script"));
  CHECK_THAT(again, Contains("&lt;script&gt;"));
}

TEST_CASE("a link that runs code loses its address", "[render]") {
  for (const char* text :
       {"[a](javascript:alert(1))", "[a](JavaScript:alert(1))", "[a](<javascript:alert(1)>)",
        "[a](&#106;avascript:alert(1))", "[a](data:text/html;base64,AAAA)", "[a](vbscript:x)",
        "<javascript:alert(1)>", "[a][b]\n\n[b]: javascript:alert(1)", "[a](file:///etc/passwd)"}) {
    INFO(text);
    CHECK_THAT(to_html(text, 3), !Contains("href=\"javascript", Catch::CaseSensitive::No));
    CHECK_THAT(to_html(text, 3), Contains("href=\"\""));
    CHECK_THAT(to_html(to_markdown(text, 3), 3),
               !Contains("script:", Catch::CaseSensitive::No) || !Contains("href=\"j"));
  }
  CHECK(is_harmless_link("https://example.org/a:b"));
  CHECK(is_harmless_link("mailto:a@example.org"));
  CHECK(is_harmless_link("drinks/a.html"));
  CHECK(is_harmless_link("#a:b"));
  CHECK_FALSE(is_harmless_link("javascript:1"));
  CHECK_FALSE(is_harmless_link(" javascript:1"));
}

TEST_CASE("a picture in a text is a link, for a page loads nothing", "[render]") {
  std::string html =
      to_html("![the glass](https://example.org/a.png) and [![b](c.png)](https://example.org)", 3);
  CHECK_THAT(html, !Contains("<img"));
  CHECK_THAT(html, Contains("<a href=\"https://example.org/a.png\">the glass</a>"));
  CHECK_THAT(html, Contains("<a href=\"https://example.org\"><em>b</em></a>"));
}

TEST_CASE("headings of a text stand below those of the page", "[render]") {
  CHECK_THAT(to_html("# One\n\n###### Six", 3), Contains("<h3>One</h3>") && Contains("<h6>Six</h6>"));
  CHECK_THAT(to_markdown("# One", 3), Contains("### One"));
}

TEST_CASE("a text without its marks is plain words", "[render]") {
  CHECK(to_plain_text("Stir *once*,\nthen `serve`.\n\n- now") == "Stir once, then serve. now");
}
