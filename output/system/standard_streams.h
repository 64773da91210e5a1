// Standard output and error when nobody listens.
#pragma once

namespace rakelight {

/// To be called first. A stream that is closed is opened on nothing: it would be the next file that is
/// opened, and a picture would be written over by names and numbers. What cannot be said on standard error,
/// as when a log's disk is full, is dropped: hours of work do not end by it.
void keep_standard_streams();

}  // namespace rakelight
