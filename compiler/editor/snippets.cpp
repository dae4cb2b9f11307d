#include "editor/snippets.h"

namespace gill::editor {
namespace {

constexpr DeclarationSnippet all[] = {
    {"drink", "a drink with its build",
     "drink ${1:Name}\n  glass          ${2:coupe}\n\n  ${3:60 ml}          ${4:gin}\n  ${5:22.5 ml}        "
     "${6:lime juice}\n\n  shake          ${7:12 s}\n  double strain\n  garnish        ${8:none}\n"},
    {"prep", "what is made before service",
     "prep ${1:name}\n  ${2:500 g}           ${3:white sugar}\n  ${4:500 ml}          ${5:water}\n  "
     "dissolve\n  keeps           ${6:14 d chilled}\n"},
    {"ingredient", "what is bought, from its nearest relation",
     "ingredient ${1:name} like ${2:gin}\n  strength ${3:40 % abv}\n"},
    {"glass", "a glass of the house", "glass ${1:name} like ${2:coupe}\n  holds  ${3:180 ml}\n"},
    {"ice", "an ice of the house", "ice ${1:name}\n  each ${2:30 g}\n"},
    {"family", "what drinks of a kind have in common",
     "family ${1:name}\n  method   ${2:shake}\n  strength ${3:14..20 % abv}\n"},
    {"menu", "a list of drinks with its prices",
     "menu ${1:Name}\n  runs       ${2:2027-01-01 .. 2027-03-31}\n  section    ${3:All}\n    ${4:Drink}  at "
     "${5:12 EUR}\n"},
    {"prices", "what a supplier asks", "prices ${1:name}\n  ${2:gin}  ${3:700 ml} for ${4:21.50 EUR}\n"},
    {"unit", "a measure of the house", "unit ${1:name} = ${2:15 ml}\n"},
    {"house", "the bar itself: money, measures, columns",
     "house ${1:Name}\n  currency  ${2:EUR}\n  ounce     ${3:30 ml}\n  show      ${4:ml, oz}\n"},
};

}  // namespace

std::span<const DeclarationSnippet> declaration_snippets() { return all; }

}  // namespace gill::editor
