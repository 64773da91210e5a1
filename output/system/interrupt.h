// Ctrl-C asks the program to stop: work ends at the next quiet point, and nothing half-written is left.
#pragma once

namespace rakelight {

/// From now on SIGINT (Ctrl-C) and SIGTERM only set a flag (a second one ends the program at once), and a
/// limit on the size of files makes a write fail (SIGXFSZ) where it would end the program.
void watch_for_interrupt();

/// Whether such a signal came.
bool interrupted();

/// Thrown where work stops because of it. The program ends with code 130.
struct Interrupted {};

/// \throws Interrupted if a signal came.
void stop_if_interrupted();

}  // namespace rakelight
