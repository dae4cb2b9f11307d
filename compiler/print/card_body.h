#pragma once
#include "print/card_amounts.h"

namespace gill::print {

/// What stands below the head: the build, the method, what is right when; on the back, what is not needed at
/// once.
class CardBody : CardPart {
 public:
  CardBody(CardMeasures& measures, const Card& card) : CardPart(measures), card_(card) {}

  /// All of it from top to bottom, in pieces that stay together.
  std::vector<TypeBlock> blocks();

 private:
  TypeBlock pour_block(CardAmounts& amounts, const CardPour& pour, double pad, double width);
  void add_one_pour(std::vector<TypeBlock>& blocks);
  void add_build(std::vector<TypeBlock>& blocks);
  void add_method(std::vector<TypeBlock>& blocks);
  void add_right_when(std::vector<TypeBlock>& blocks);
  void add_back(std::vector<TypeBlock>& blocks);
  void add_picture(std::vector<TypeBlock>& blocks);
  void add_section(std::vector<TypeBlock>& blocks, const CardSection& section);

  const Card& card_;
};

}  // namespace gill::print
