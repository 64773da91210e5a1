// What can go wrong on the way to a finished file, in words for the artist.
#pragma once

#include <stdexcept>

namespace rakelight {

/// Something about files: no permission, no room, a part that does not fit. The program ends with code 3.
class OutputError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// What was asked for cannot be done: an unknown picture, a size that is no size, a page of a damaged file.
/// The program ends with code 2.
class RequestError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

}  // namespace rakelight
