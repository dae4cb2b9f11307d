#include "diff/pair.h"

#include <catch2/catch.hpp>
#include <filesystem>

#include "support/fixture.h"

namespace gill::testing {

namespace fs = std::filesystem;

namespace {

std::unique_ptr<driver::Compilation> compile_house(const Files& files) {
  driver::MemoryAccess access(files);
  return driver::compile(std::get<driver::HouseFiles>(access.read_house("house", {})));
}

const diff::Change& change_of(const std::vector<diff::Change>& changes, const std::string& name) {
  for (const auto& change : changes)
    if (change.name == name) return change;
  FAIL("nothing changed in " << name);
  return changes.front();
}

}  // namespace

nlohmann::json Pair::json() const { return nlohmann::json::parse(diff::to_json(changes)); }

std::string Pair::text() const { return diff::to_text(diff::change_page(changes, nullptr), false); }

std::string Pair::markdown() const { return diff::to_markdown(diff::change_page(changes, nullptr)); }

std::string Pair::html() const {
  auto old_input = before->book_input(), new_input = after->book_input();
  render::document::BookIndex old_book(old_input, true), new_book(new_input, true);
  diff::BothBooks books{old_book, new_book};
  return diff::to_html(diff::change_page(changes, &books), changes.house);
}

diff::StaffSheet Pair::staff() const { return diff::staff_sheet(changes, old_snapshot(), new_snapshot()); }

const diff::Change& Pair::drink(const std::string& name) const { return change_of(changes.drinks, name); }

const diff::Change& Pair::prep(const std::string& name) const { return change_of(changes.preps, name); }

Pair compare(const Files& before, const Files& after) {
  Pair pair{compile_house(before), compile_house(after), {}};
  pair.changes = diff::compare(pair.old_snapshot(), pair.new_snapshot());
  return pair;
}

Pair compare(const std::string& before, const std::string& after) {
  return compare(Files{{"house.gill", before}}, Files{{"house.gill", after}});
}

Files house_in(const std::string& folder) {
  auto texts = texts_in(folder);
  return Files(texts.begin(), texts.end());
}

std::string with(std::string text, const std::string& what, const std::string& by) {
  auto place = text.find(what);
  REQUIRE(place != std::string::npos);
  return text.replace(place, what.size(), by);
}

const nlohmann::json& named(const nlohmann::json& list, const std::string& name) {
  for (const auto& one : list)
    if (one.at("name") == name) return one;
  FAIL("no " << name << " in the list");
  return list;
}

}  // namespace gill::testing
