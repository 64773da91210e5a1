// The finished files of one run of a command: written into a folder one after another, each told on stdout
// once it is there, and remembered for the JSON that lists them.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "output/paper/tracing.h"
#include "output/print/picture_writer.h"

namespace rakelight {

class FinishedFiles {
  public:
    /// Makes the folder. `told`: false leaves stdout to the command. \throws OutputError when files cannot be
    /// made in it.
    explicit FinishedFiles(std::filesystem::path folder, bool told = true);

    /// Lets `write` make the file of this name. \throws Interrupted before, OutputError as `write`.
    void add(const std::string& name, const std::function<void(const std::filesystem::path&)>& write);

    void text(const std::string& name, const std::string& bytes);
    /// The JSON that lists the others, with their checksums (sealed_json.h). Returns it as written.
    std::string record(const std::string& name, const std::string& json);
    void picture(const std::string& name, const Print& print, const PictureText& about,
                 std::optional<int> dpi = {});
    /// A drawing as PNG, with its title and note.
    void drawing(const std::string& name, const Tracing& tracing, double px_per_mm);

    const std::filesystem::path& folder() const { return folder_; }
    /// In the order in which they were written.
    const std::vector<std::string>& names() const { return names_; }

  private:
    std::filesystem::path folder_;
    bool told_;
    std::vector<std::string> names_;
};

}  // namespace rakelight
