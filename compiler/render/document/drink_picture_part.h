#pragma once
#include "render/document/book_index.h"
#include "render/drawing/drink_picture.h"

namespace gill::render::document {

/// What is drawn of a drink; without a glass where the drink names none.
drawing::DrinkPicture picture_of(const BookIndex& index, analysis::DrinkId id);

/// The drawn picture with its caption and its description in words.
Figure drink_figure(const BookIndex& index, analysis::DrinkId id);

}  // namespace gill::render::document
