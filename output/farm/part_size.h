// Into how many parts a picture is split, and what that takes in time and in machines.
#pragma once

namespace rakelight {

/// What the pictures of one preview take, measured on one machine.
struct PictureCost {
    double set_up_s = 0;  ///< reading, laying, the world and its metering: once in every part
    double trace_s = 0;   ///< all rows of all pictures
    int rows = 1;         ///< of the lowest picture
};

/// Set-up is at most so much of a part.
inline constexpr double kMostSetUpShare = 0.2;
/// What a queue takes to begin a task, beside what the task does. Common practice, no published source.
inline constexpr double kTaskBegins_s = 1;
/// A queue of jobs refuses longer arrays as it comes (MaxArraySize of slurm.conf(5) is 1001).
inline constexpr int kMostParts = 1000;

/// As many parts as keep set-up, with the beginning of a task, within its share of each; none lower than a
/// tile, 16 rows. 1 where splitting does not pay.
int parts_for(const PictureCost& cost);

/// How long one of `parts` takes, set-up included.
double part_s(const PictureCost& cost, int parts);

/// Minutes after which a task may be ended: thrice its estimate, for a slower machine, and five. Common
/// practice, no published source.
int time_limit_min(double estimate_s);

/// What joining takes and where light is kept.
struct JoinCost {
    double join_s = 0;          ///< of the whole picture, from parts on a disk that costs nothing
    double bytes = 0;           ///< of all parts
    double folder_b_per_s = 1;  ///< what the shared folder gives to all machines together
};

/// One way to split: from the first task to the joined picture.
struct SplitCost {
    double elapsed_s = 0;     ///< with a machine for every part
    double machine_s = 0;     ///< of all machines together: what is paid
    double set_up_share = 0;  ///< of the machine time of the parts
    double folder_s = 0;      ///< of `elapsed_s`: waiting for the shared folder
};

/// A closed form (Amdahl's law with a serial join): set-up + tracing / parts, each byte written and read
/// once by way of the shared folder, then the join.
SplitCost split_cost(const PictureCost& cost, const JoinCost& join, int parts);

}  // namespace rakelight
