# `cpack --config build/CPackConfig.cmake -B FOLDER` makes a Debian package of what `cmake --install` lays. The libraries that
# it needs are read off the program by dpkg-shlibdeps.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME gill)
set(CPACK_PACKAGE_CONTACT "The makers of Gill <gill@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_PACKAGE_DESCRIPTION
"Specs of drinks and house preparations are written once, in text. Gill works out volume, strength, dilution, allergens and
cost, and prints the staff book, cards, labels and the night's prep.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# The faces of printed cards; names in all scripts want the others.
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-noto-core)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "fonts-droid-fallback, fonts-symbola")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS git)
include(CPack)
