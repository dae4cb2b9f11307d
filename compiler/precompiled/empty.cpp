// CMake precompiles headers for a library, and a library has a source.
