#include "analysis/forms/form_matcher.h"

#include <algorithm>
#include <array>

#include "base/characters.h"

namespace gill::analysis {

bool FormMatcher::is_filter() const {
  auto stop = filter_at(0);
  return stop && (*stop == end_ || (is_any(*stop, {"until", "till"}) && end_ - *stop <= 4));
}

bool FormMatcher::names_setting() const {
  auto lines = bare_ice();
  if (!lines) lines = bare_glass();
  return lines && std::all_of(lines->begin(), lines->end(),
                              [](const Reading& one) { return one.implied != Implied::no; });
}

bool FormMatcher::reads_as_amount() const {
  if (end_ == 0 || line_.kind(0) != syntax::TokenKind::word || match_verb(line_, 0)) return false;
  auto lines = match();
  return lines && lines->size() == 1 && base::is_digit(lines->front().text[0]);
}

Match FormMatcher::match() const {
  static constexpr std::array of_both = {
      &FormMatcher::bulleted,           &FormMatcher::step_on_amounts,  &FormMatcher::amounts_in_a_row,
      &FormMatcher::word_behind_amount, &FormMatcher::amount_in_amount, &FormMatcher::warmth_behind,
      &FormMatcher::poured_extract,     &FormMatcher::pinches_of,       &FormMatcher::filled_measure,
      &FormMatcher::ground_spice,       &FormMatcher::warm_or_cold,     &FormMatcher::named_amount,
      &FormMatcher::bare_unit,          &FormMatcher::word_number,      &FormMatcher::fruit_part,
      &FormMatcher::range_in_words,     &FormMatcher::two_measures,     &FormMatcher::shared_amount,
      &FormMatcher::whole_fruit,        &FormMatcher::from_where,       &FormMatcher::bare_egg,
      &FormMatcher::poured_fruit,       &FormMatcher::counted_dashes,   &FormMatcher::dashed_bitters,
      &FormMatcher::bracketed,          &FormMatcher::goes_in,          &FormMatcher::counted_times,
      &FormMatcher::described,          &FormMatcher::shots_of_coffee,  &FormMatcher::amount_in_brackets,
      &FormMatcher::fraction_of_one,    &FormMatcher::bottle_of,        &FormMatcher::ratio_behind,
      &FormMatcher::by_weight,          &FormMatcher::said_behind,      &FormMatcher::times_measure,
      &FormMatcher::amount_at,          &FormMatcher::words_turned,     &FormMatcher::measured_again,
      &FormMatcher::pack_in_brackets};
  static constexpr std::array of_drink = {&FormMatcher::rinsed_and_emptied,
                                          &FormMatcher::dry_without_ice,
                                          &FormMatcher::splash_behind,
                                          &FormMatcher::left_bare,
                                          &FormMatcher::without_alcohol,
                                          &FormMatcher::not_done,
                                          &FormMatcher::order_in_words,
                                          &FormMatcher::made_into,
                                          &FormMatcher::rim_dipped,
                                          &FormMatcher::dotted_on,
                                          &FormMatcher::counted_serves,
                                          &FormMatcher::stands_there,
                                          &FormMatcher::bowl_and_cups,
                                          &FormMatcher::rimmed_glass,
                                          &FormMatcher::misted,
                                          &FormMatcher::stuck_with,
                                          &FormMatcher::put_on,
                                          &FormMatcher::serves_where,
                                          &FormMatcher::amount_over_ice,
                                          &FormMatcher::bare_mixer,
                                          &FormMatcher::dissolved_first,
                                          &FormMatcher::herb_top,
                                          &FormMatcher::flag_of_two,
                                          &FormMatcher::named_float,
                                          &FormMatcher::off_the_boil,
                                          &FormMatcher::amount_beside,
                                          &FormMatcher::goes_on_top,
                                          &FormMatcher::put_together,
                                          &FormMatcher::poured_last,
                                          &FormMatcher::shake_again,
                                          &FormMatcher::beans_on_foam,
                                          &FormMatcher::words_of_service,
                                          &FormMatcher::seasoned,
                                          &FormMatcher::work_where,
                                          &FormMatcher::smoked_glass,
                                          &FormMatcher::total_size,
                                          &FormMatcher::ice_by_amount,
                                          &FormMatcher::fill_glass,
                                          &FormMatcher::warm_or_cold,
                                          &FormMatcher::bare_glass,
                                          &FormMatcher::bare_ice,
                                          &FormMatcher::served_where,
                                          &FormMatcher::pour_where,
                                          &FormMatcher::muddle_what,
                                          &FormMatcher::strain_where,
                                          &FormMatcher::serve_how,
                                          &FormMatcher::shake_how,
                                          &FormMatcher::until_cold,
                                          &FormMatcher::until_seen,
                                          &FormMatcher::build_where,
                                          &FormMatcher::ice_goes_in,
                                          &FormMatcher::top_with,
                                          &FormMatcher::rinse_with,
                                          &FormMatcher::rim_with,
                                          &FormMatcher::no_garnish,
                                          &FormMatcher::express,
                                          &FormMatcher::grate,
                                          &FormMatcher::add_amount,
                                          &FormMatcher::adverbs,
                                          &FormMatcher::float_amount,
                                          &FormMatcher::counted_last,
                                          &FormMatcher::beside,
                                          &FormMatcher::bracketed_garnish,
                                          &FormMatcher::garnish_list,
                                          &FormMatcher::how_last,
                                          &FormMatcher::ice_to_the_top,
                                          &FormMatcher::crushed_what,
                                          &FormMatcher::laid_on,
                                          &FormMatcher::place_and_time,
                                          &FormMatcher::warm_to};
  static constexpr std::array of_prep = {&FormMatcher::poured_each,
                                         &FormMatcher::filled_to,
                                         &FormMatcher::brought_to,
                                         &FormMatcher::heated_and_held,
                                         &FormMatcher::in_ice_bath,
                                         &FormMatcher::sous_vide,
                                         &FormMatcher::mixed_in,
                                         &FormMatcher::step_with_amount,
                                         &FormMatcher::muddle_what,
                                         &FormMatcher::strained_off,
                                         &FormMatcher::pressed_out,
                                         &FormMatcher::put_together,
                                         &FormMatcher::keg_of,
                                         &FormMatcher::storage_alone,
                                         &FormMatcher::keeps_how_long,
                                         &FormMatcher::place_and_time,
                                         &FormMatcher::boil,
                                         &FormMatcher::reduce_share,
                                         &FormMatcher::make_up_to,
                                         &FormMatcher::strain_through,
                                         &FormMatcher::until_dissolved,
                                         &FormMatcher::adverbs,
                                         &FormMatcher::fat_off_the_top,
                                         &FormMatcher::take_fat_off,
                                         &FormMatcher::clarify_with,
                                         &FormMatcher::warm_to,
                                         &FormMatcher::cold_place,
                                         &FormMatcher::carbonate_at,
                                         &FormMatcher::charge_with,
                                         &FormMatcher::kitchen_words,
                                         &FormMatcher::bottled_in,
                                         &FormMatcher::until_seen,
                                         &FormMatcher::how_last,
                                         &FormMatcher::sized_vessel,
                                         &FormMatcher::off_heat,
                                         &FormMatcher::poured_together,
                                         &FormMatcher::off_the_boil,
                                         &FormMatcher::step_on_named};
  if (end_ == 0) return std::nullopt;
  if (!in_prep_) {
    for (auto form : of_drink)
      if (auto found = (this->*form)()) return found;
  } else {
    for (auto form : of_prep)
      if (auto found = (this->*form)()) return found;
  }
  for (auto form : of_both)
    if (auto found = (this->*form)()) return found;
  return std::nullopt;
}

}  // namespace gill::analysis
