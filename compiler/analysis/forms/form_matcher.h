#pragma once
#include "analysis/forms/form_line.h"

namespace gill::analysis {

/// Tries every form of the trade on one stretch of a line. A form is one function: it looks at the words and
/// gives the lines of the language that they mean, or nothing where they are not it. Each stands in the file
/// of its subject.
class FormMatcher : public FormLine {
 public:
  using FormLine::FormLine;
  using FormLine::number_of;

  /// The first form that fits, those of the declaration's kind before those of both.
  Match match() const;
  /// `gently`, `hard`: how a step is done.
  static bool is_how(std::string_view word) { return is_adverb(base::lower_ascii(word)); }
  /// True where the whole stretch is an amount of something known, up to its first comma.
  bool begins_with_amount() const { return is_amount(0, comma_or_end(0)); }
  /// True where the whole stretch says how long a thing keeps, and where.
  bool is_shelf_life() const { return keeps_how_long().has_value(); }
  /// True where the whole stretch is a form that stands for one amount: `a dash of bitters`.
  bool reads_as_amount() const;
  /// True where the whole stretch is a bowl and what it is drunk from.
  bool is_bowl_with_cups() const { return bowl_and_cups().has_value(); }
  /// True where the whole stretch is a heat that is held: `heat to 70 C, hold 20 min`.
  bool is_held_heat() const { return heated_and_held().has_value(); }
  /// True where the whole stretch says in which order the things above go in.
  bool is_order_in_words() const { return order_in_words().has_value(); }
  /// True where the whole stretch is a step and the amounts that it is done to.
  bool is_step_on_amounts() const { return step_on_amounts().has_value(); }
  /// True where the whole stretch is a row of amounts and their names: `30/20 ml gin, vermouth`.
  bool is_row_of_amounts() const { return amounts_in_a_row().has_value(); }
  /// True where the whole stretch names the glass or its ice and no more.
  bool names_setting() const;
  /// True where the whole stretch is what a thing is strained through: `coffee filter`, `superbag`.
  bool is_filter() const;
  /// True where the words say that what wetted a glass is poured away: `swirl and dump the excess`.
  bool is_discarded(std::size_t first, std::size_t last) const;

 private:
  /// The lines that an amount is read as, whether it is written in the language's own form or in one of the
  /// trade's; nothing where the stretch is none.
  Match amount_lines(std::size_t first, std::size_t last) const;

  // ---- glass and ice (serving_forms.cpp)
  /// The glass and the ice named after `over`, `on`, `into` from `i` on, as implied lines; false when
  /// something else is named.
  bool vessel(std::size_t i, Readings& lines) const;
  /// `strain over ice`, `double strain into a chilled coupe`, `strain back into the tin`.
  Match strain_where() const;
  /// `serve on the rocks`, `served up`.
  Match serve_how() const;
  /// `build over ice in a highball`.
  Match build_where() const;
  /// `coupe`, `chilled coupe`, `rocks glass, no ice`, `in a wine glass full of ice`: the drink's glass.
  Match bare_glass() const;
  /// `big rock`, `over crushed ice`, `no ice`: what the drink is served on.
  Match bare_ice() const;
  /// `over ice in a highball`, `up in a coupe`.
  Match served_where() const;
  /// `pour over ice`, `pour into a flute`: strained, turned out or built, by what was done before.
  Match pour_where() const;
  /// `serves 2 over ice`
  Match serves_where() const;
  /// `8 serves`, `10 portions`, `for 12 people`.
  Match counted_serves() const;
  /// `2 h in the fridge`: it stands so long.
  Match stands_there() const;
  /// `punch bowl, punch cups`: the bowl, and what it is drunk from.
  Match bowl_and_cups() const;
  /// `100 ml orange juice over ice`: an amount, and where it goes.
  Match amount_over_ice() const;
  /// `ice to the top of a highball`: what fills the glass.
  Match ice_to_the_top() const;
  /// `fill rocks with crushed ice`: the glass, and what it is filled with.
  Match fill_glass() const;

  // ---- mixing (mixing_forms.cpp)
  /// `hard shake`, `shake hard 12 s`, `shake hard, 12 s`, `shake with ice for 10 s`: how and how long, in any
  /// order.
  Match adverbs() const;
  /// `reverse dry shake`, `wet shake`, `shake with ice for 10 s`.
  Match shake_how() const;
  /// `stir until cold`: as long as one usually does.
  Match until_cold() const;
  /// `blend with ice until smooth`: how one sees that it is done.
  Match until_seen() const;
  /// `add ice`, `fill with crushed ice`: ice at its moment.
  Match ice_goes_in() const;
  /// `add 15 ml lime juice`: an amount at this place.
  Match add_amount() const;
  /// `muddle lemon and mint`, `muddle in the glass`.
  Match muddle_what() const;
  /// The same for what is named from `first` on.
  Match muddle_together(std::size_t first) const;
  std::size_t tool_begin(std::size_t first, std::size_t stop) const;
  std::optional<StockId> recipe_use(std::size_t first, std::size_t last) const;
  /// `soda`, `ginger beer` alone: what is topped with.
  Match bare_mixer() const;
  /// `stir the marmalade with the gin until dissolved`: a step in words.
  Match dissolved_first() const;
  /// `mint top`: the tip of a sprig.
  Match herb_top() const;
  /// `orange cherry flag`: both, on one pick.
  Match flag_of_two() const;
  /// `rum float 15 ml`
  Match named_float() const;
  /// `1 heaped barspoon marmalade`: how full, which nobody measures.
  Match filled_measure() const;
  /// `water just off the boil`
  Match off_the_boil() const;
  /// `steep the tea 5 min`, `heat cream to 80 C`: a step of a prep, and what of the above it is done to.
  Match step_on_named() const;
  /// `add everything to the shaker with ice`: a step in words.
  Match put_together() const;
  /// `dry shake, then again with ice`.
  Match shake_again() const;
  /// `press the mint softly`: muddled.
  Match crushed_what() const;
  /// `tip out the water`: a step in words.
  Match words_of_service() const;
  /// `salt + pepper`.
  Match seasoned() const;
  std::optional<std::size_t> poured_already(std::size_t first) const;
  /// True where all from `first` to `last` names what went in above.
  bool poured_already(std::size_t first, std::size_t last) const;
  std::optional<std::size_t> poured_slowly(std::size_t first) const;
  /// `smoke the glass with cherry wood`.
  Match smoked_glass() const;
  /// `total 90 ml`.
  Match total_size() const;
  /// `200 g crushed ice`: ice goes in here.
  Match ice_by_amount() const;
  /// `stir in a warm toddy glass`: worked in the glass that it is served in.
  Match work_where() const;
  /// `muddle gently`, `top prosecco slowly`, `stir to combine`, `dissolve while hot`: how, what for and in
  /// what state, behind the step.
  Match how_last() const;

  // ---- tops, floats, rinses, rims (finishing_forms.cpp), garnish (garnish_forms.cpp)
  /// `top up with soda water`, `tonic water to top`.
  Match top_with() const;
  /// `3 beans` on a drink of coffee.
  Match beans_on_foam() const;
  /// `top with soda, 60 ml`.
  Match poured_last() const;
  /// `rinse the glass with absinthe`, `absinthe rinse`.
  Match rinse_with() const;
  /// `coupe rimmed with salt`, `salt-rimmed coupe`: the glass, and what lies on its rim.
  Match rimmed_glass() const;
  /// `absinthe mist in the glass`, `spritz of absinthe`.
  Match misted() const;
  /// `drop a cherry in the bottom`, `place a mint sprig on top`: laid on.
  Match put_on() const;
  /// `lemon slice stuck with cloves`.
  Match stuck_with() const;
  /// `half rim with salt`, `sugar rim`.
  Match rim_with() const;
  std::optional<std::size_t> rim_of_glass(std::size_t stop, Readings& lines, bool& half) const;
  /// `lime wheel dehydrated`: what it was made into, behind its name.
  Match made_into() const;
  /// `wet the rim with lime, dip in salt`.
  Match rim_dipped() const;
  /// `bitters dots on top`, `hot sauce drops on the foam`: so they lie there.
  Match dotted_on() const;
  /// `no garnish`.
  Match no_garnish() const;
  /// `express lemon twist over the drink and discard`.
  Match express() const;
  /// `grate nutmeg over`, `dust with cinnamon`.
  Match grate() const;
  Match muddled_behind() const;
  /// `15 ml overproof rum, float` and `float of …`.
  Match float_amount() const;
  /// Where a garnish goes and what is done to it, behind its name: the note it stands for; nothing where no
  /// such words stand.
  std::optional<std::size_t> garnish_note(std::size_t i, std::string& note, Verb& verb) const;
  /// True for what a bar puts on a drink when it stands alone on a line.
  bool is_garnish_by_kind(std::size_t first, std::size_t last) const;
  /// The spice as a powder, where the library has one beside its stick or pod: what is dusted or pinched.
  std::optional<std::string> ground_of(std::size_t first, std::size_t last) const;
  std::optional<Reading> garnish_thing(std::size_t first, std::size_t last, Verb verb) const;
  static bool is_size(std::string_view word);
  bool shares_item(std::size_t first, std::size_t last, std::size_t item_at) const;
  bool lies_on_drink(std::size_t first, std::size_t last) const;
  bool is_laid_on_only(std::size_t first, std::size_t last) const;
  /// `garnish orange peel (expressed)`.
  Match bracketed_garnish() const;
  /// `garnish orange slice and cherry`, `garnish with A, B & C`, and a bare `lemon twist, expressed`: each is
  /// one.
  Match garnish_list() const;
  /// `garnish apple slices x3`: how many, behind the name.
  Match counted_last() const;
  /// `basil leaf for decoration`, `orange peel expressed over the drink`: what is laid on, and how.
  Match laid_on() const;
  /// `side shot of prosecco`, `salt and lime on the side`.
  Match beside() const;

  // ---- amounts (amount_forms.cpp)
  /// `lemon juice 30 ml`: the amount last.
  Match named_amount() const;
  /// `a dash of bitters`, `dash bitters`, `an egg white`: one of it.
  Match bare_unit() const;
  /// `two dashes bitters`, `half an ounce gin`, `half a lemon`, `three quarters of an ounce gin`.
  Match word_number() const;
  /// `juice of half a lime`, `zest of 2 limes`: what the fruit gives, by its own `gives` line.
  Match fruit_part() const;
  Match given_by(std::string_view part, std::size_t at) const;
  /// `1/2 lime, squeezed`, `12 limes, juiced`: the juice that the fruit gives.
  Match whole_fruit() const;
  /// `200 ml hot water`, `top boiling water`, `60 ml cold cream`: how warm it is, behind the name. A thing
  /// that is called so
  /// (`hot sauce`, `iced tea`) keeps its name.
  Match warm_or_cold() const;
  /// `2 to 3 drops saline`.
  Match range_in_words() const;
  /// `30 ml/1 oz gin`, `30 ml / 1 oz gin`: two measures that must agree.
  Match two_measures() const;
  /// `equal parts A, B, C`; `1 oz each A, B, C`.
  Match shared_amount() const;
  std::optional<std::size_t> each_at(std::size_t first) const;
  std::string shared_measure(std::size_t first, std::size_t last) const;
  /// `25 ml lime`: its juice.
  Match poured_fruit() const;
  std::string juice_of(StockId id) const;
  /// `2d aromatic bitters`.
  Match counted_dashes() const;
  /// `2 dashes aromatic`.
  Match dashed_bitters() const;
  /// `1 egg white (optional)`.
  Match bracketed() const;
  /// `soak with 3 dashes bitters`, `pour in 400 ml milk`.
  Match goes_in() const;
  /// `pinch of cinnamon`, `grind of black pepper`.
  Match ground_spice() const;
  /// `100 g coarse ground coffee`, `1 pineapple peeled and cubed`.
  Match described() const;
  /// `1 shot espresso`, `a double espresso`.
  Match shots_of_coffee() const;
  /// `1x egg white`.
  Match counted_times() const;
  /// True where the drink was worked or stands in its glass: a piece without a number lies on it.
  bool is_past_mixing() const {
    return state_.is_finished || state_.was_worked || (state_.has_ice && !state_.liquids.empty());
  }
  /// `- 50 ml gin`.
  Match bulleted() const;
  /// `60 ml gin from the freezer`: how cold it is poured.
  Match from_where() const;
  /// `egg white (25 ml)`, `boiling water (150 ml)`: the amount in brackets behind the name.
  Match amount_in_brackets() const;
  /// `1/2 a lime`, `1 and a half oz gin`.
  Match fraction_of_one() const;
  /// `1 oz vodka to preserve`, `float 15 ml red wine over the back of a spoon`: what for, where and how,
  /// behind the name: words that change nothing.
  Match said_behind() const;
  /// `20 ml honey syrup, 2:1`: the ratio is a part of its name.
  Match ratio_behind() const;
  /// `12 oz honey by weight`: ounces of mass.
  Match by_weight() const;
  /// `2 oz champagne to finish`, `10 ml absinthe floated on top`: where it goes, behind the name.
  Match goes_on_top() const;
  /// `a 70 cl bottle of bourbon`, `1 bottle gin (700 ml)`.
  Match bottle_of() const;
  /// `grappa 20 ml, on the side`.
  Match amount_beside() const;
  /// `egg white`: one of it.
  Match bare_egg() const;
  /// `3 cardamom pods, crushed`, `20 g butter, salted`: how it goes in, or a word of its name.
  Match word_behind_amount() const;
  /// `1 tsp honey in 10 ml hot water`, `1 sugar cube soaked with 3 dashes bitters`: both go in.
  Match amount_in_amount() const;
  /// `2 x 750 ml red wine`: so many times the measure.
  Match times_measure() const;
  /// `60 ml vermouth at -18 C`: how warm it is, without its comma.
  Match amount_at() const;
  /// `15 ml creme de cacao white`: the words of a name in another order.
  Match words_turned() const;
  /// `pinch salt, pinch pepper`, `big pinch of nutmeg and cinnamon`: a pinch of each.
  Match pinches_of() const;

  // ---- measures (measure_forms.cpp)
  struct Bracketed {
    std::size_t open;
    std::string text;
  };
  std::optional<Bracketed> in_brackets(std::size_t stop) const;
  /// `60 ml gin (2 oz)`, `30 ml lime juice (1 lime)`: the same said again.
  Match measured_again() const;
  /// `1 tsp vanilla`: its extract.
  Match poured_extract() const;
  /// `boil 500 ml water, 200 g sugar`, `shake 60 ml gin and 20 ml lime juice`: the amounts, then the step.
  Match step_on_amounts() const;
  /// `90 ml per serve`: what one is poured, in words.
  Match poured_each() const;
  /// `1 punnet strawberries (400 g)`, `juice of 2 limes (50 ml)`: how much that is.
  Match pack_in_brackets() const;
  /// `1 l water boiling`: how warm it is poured.
  Match warmth_behind() const;
  /// The numbers of `30/20/10`, and where they end; none where they are no such row.
  std::vector<std::string> numbers_in_a_row(std::size_t& next) const;
  /// `30/20/10 ml gin, vermouth, lime juice`: to each its own.
  Match amounts_in_a_row() const;
  /// `top soda, just a splash`.
  Match splash_behind() const;
  /// `water to 1 l`: filled up.
  Match filled_to() const;
  /// `dilute to 20 % abv`, `add sugar to 50 brix`.
  Match brought_to() const;

  // ---- what is not done (negated_forms.cpp)
  /// `skip the garnish`.
  Match left_bare() const;
  /// `no alcohol`.
  Match without_alcohol() const;
  /// `gin first, then tonic`: the order of what stands above, in words.
  Match order_in_words() const;
  /// `not shaken`, `no rim`: a step in words.
  Match not_done() const;
  /// `dry shake 10 s, no ice`.
  Match dry_without_ice() const;
  /// `rinse absinthe and dump`: the rinse is poured away.
  Match rinsed_and_emptied() const;

  // ---- preps (prep_forms.cpp)
  /// `keeps 2 weeks in the fridge`, `7 days in the fridge`, `good for 1 month chilled`: a prep's shelf life.
  Match keeps_how_long() const;
  template <typename TakesPlace>
  Match life_and_place(const TakesPlace& takes_place, std::string& place) const;
  std::string fridge() const;
  std::string room() const;
  std::string freezer() const;
  /// After `in the fridge` and the like at `i`, with the temperature that it means; nothing where no place
  /// stands.
  std::optional<std::size_t> take_place(std::size_t i, std::string& place) const;
  /// `rest overnight`, `infuse 24 h in the fridge`, `let stand 2 h at room temperature`, `leave overnight`.
  Match place_and_time() const;
  /// `bring to the boil`.
  Match boil() const;
  /// `reduce by half`.
  Match reduce_share() const;
  /// `make up to 1 l with water`.
  Match make_up_to() const;
  /// `strain through a coffee filter`.
  Match strain_through() const;
  /// Where the name of a filter ends that stands at `i`; nothing where none does.
  std::optional<std::size_t> filter_at(std::size_t i) const;
  /// `stir until dissolved`.
  Match until_dissolved() const;
  /// `scrape off the fat`, `skim off oil`, `remove the butter`: the fat that went in, or what is named.
  Match take_fat_off() const;
  /// `crack the fat off the top`: the fat that went in.
  Match fat_off_the_top() const;
  /// `clarify with 400 ml milk`: the milk goes in, then it is cleared.
  Match clarify_with() const;
  /// `warm to 60 C`, `bring up to 80 C`.
  Match warm_to() const;
  /// What went in that is called so or has such a name as well (`the pod`); nothing where several are.
  std::optional<StockId> named_solid(std::size_t first, std::size_t last) const;
  /// `strain off the chillies`.
  Match strained_off() const;
  /// True while fruit, herbs, spices, tea or a fat lie in a prep that nothing was strained from.
  bool still_steeps() const;
  /// `press on the solids`.
  Match pressed_out() const;
  /// `keg 5 l`.
  Match keg_of() const;
  /// `keep in the freezer`: a step in words.
  Match storage_alone() const;
  /// `carbonate 3.5 vol`.
  Match carbonate_at() const;
  /// `2 chargers`, `charge with 2 N2O`.
  Match charge_with() const;
  /// `heat to 70 C, hold 20 min`: held at that heat.
  Match heated_and_held() const;
  /// `sous vide 55 C 2 h`, in any order.
  Match sous_vide() const;
  /// `stir in the vinegar`, `whisk agar into lime`: what stands in the amounts above is mixed.
  Match mixed_in() const;
  /// `simmer in 1 l water, 20 min`: what goes in, then the step.
  Match step_with_amount() const;
  /// `ice bath`.
  Match in_ice_bath() const;
  /// `melt butter`, `toast spices`: a step in words.
  Match kitchen_words() const;
  /// `60 ml dropper bottles`, `into a 1 l siphon`: what it is filled into, and how much that holds.
  Match sized_vessel() const;
  /// `take off the heat`: a step in words.
  Match off_heat() const;
  /// `pour the punch into the milk`: what stands in the amounts above, poured together.
  Match poured_together() const;
  /// `dropper bottle`.
  Match bottled_in() const;
  /// `fridge overnight`, `in the freezer for 12 h`.
  Match cold_place() const;
};

}  // namespace gill::analysis
