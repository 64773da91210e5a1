// Which job of a batch writes which picture, so that no two of them write the same one.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace rakelight {

class PicturesTaken {
  public:
    /// Takes a picture, by its folder and file name without ending, for the job asked for at `place` with
    /// these words. \return empty when it is free, or taken by a job of the same words; else why it is not,
    /// and what to do.
    std::string take(const std::string& folder, const std::string& stem, const std::string& place,
                     const std::vector<std::string>& words);

  private:
    struct Job {
        std::string place;
        std::vector<std::string> words;
    };
    std::map<std::string, Job> jobs_;  // by the file's path without ending
};

}  // namespace rakelight
