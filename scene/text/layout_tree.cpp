#include "scene/text/layout_tree.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <utility>

#include "scene/text/key_table.h"
#include "scene/text/tree_merge.h"
#include "scene/text/tree_override.h"
#include "scene/text/units.h"
#include "scene/text/yaml_reader.h"

namespace rakelight {

namespace {

namespace fs = std::filesystem;
using Shape = YamlValue::Shape;

constexpr std::string_view kLike = kMakingKeys[0], kStockFrom = kMakingKeys[1];
// In the order in which they are read: what comes later is made from what comes before.
constexpr std::string_view kShelves[] = {"pigments", "tints", "stock"};

constexpr KeyRow kLibraryRows[] = {
    {.key = kShelves[0]}, {.key = kShelves[1]}, {.key = kShelves[2]}, {.key = kStockFrom}};
constexpr KeyTable kLibrary{"library", "A stock library, shared by layouts.", kLibraryRows};

[[noreturn]] void refuse(const std::string& file, std::string text) {
    throw LayoutError({file, 0, 0}, "", std::move(text));
}

[[noreturn]] void refuse(const YamlValue& at, std::string_view key, std::string text) {
    throw LayoutError({*at.file, at.line, at.column}, std::string(key), std::move(text));
}

std::string identity(const fs::path& path) {
    std::error_code error;
    const fs::path one = fs::weakly_canonical(path, error);
    return (error ? path : one).string();
}

// Shelves of a library, put before those of the file that asks for it. Names that are there twice stay so,
// for the reader to refuse with both places.
void put_before(YamlValue& root, const YamlValue& library) {
    for (const YamlMember& shelf : library.members) {
        YamlValue* own = member_of(root, shelf.key.text);
        if (!own)
            root.members.push_back(shelf);
        else if (own->shape == Shape::mapping && shelf.value.shape == Shape::mapping)
            own->members.insert(own->members.begin(), shelf.value.members.begin(), shelf.value.members.end());
    }
}

class Gathering {
  public:
    explicit Gathering(const std::string& file) : trail_{{file, identity(file)}} {}

    YamlValue whole(YamlValue root) {
        take_libraries(root);
        const YamlValue* like = member_of(root, kLike);
        if (!like) return root;
        YamlValue base;
        enter(*like, kLike, "the name of a layout file",
              [&](const std::string& path) { base = whole(parse_yaml(layout_file_text(path), path)); });
        if (base.shape != Shape::mapping)
            refuse(*like, kLike, "found a file that is no layout, expected one");
        remove(root, kLike);
        return merged(std::move(base), root);
    }

    std::vector<std::string> take_files() { return std::move(files_); }

  private:
    struct Step {
        std::string path, identity;
    };

    static void remove(YamlValue& root, std::string_view key) {
        std::erase_if(root.members, [&](const YamlMember& m) { return m.key.text == key; });
    }

    // Goes into the file named at `at` and comes back.
    template <class Read>
    void enter(const YamlValue& at, std::string_view key, const char* expected, Read&& read) {
        if (at.shape != Shape::scalar || at.text.empty())
            refuse(at, key, fmt::format("found {}, expected {}", found(at), expected));
        const fs::path path = fs::path(*at.file).parent_path() / at.text;
        std::error_code error;
        if (!fs::is_regular_file(path, error))
            refuse(at, key,
                   fmt::format("found {} {}, expected {}",
                               fs::exists(path, error) ? "no file but something else at" : "no file",
                               quoted_whole(path), expected));
        const Step step{path.string(), identity(path)};
        const auto before = std::find_if(trail_.begin(), trail_.end(),
                                         [&](const Step& s) { return s.identity == step.identity; });
        if (before != trail_.end()) {
            std::string circle;
            for (auto s = before; s != trail_.end(); ++s) circle += s->path + " asks for ";
            refuse(at, key, "found a circle: " + circle + before->path);
        }
        if (std::find(files_.begin(), files_.end(), step.path) == files_.end()) files_.push_back(step.path);
        if (files_.size() >= kMostLayoutFiles)
            refuse(at, key,
                   fmt::format("found more than {} files that a layout is made from", kMostLayoutFiles));
        trail_.push_back(step);
        read(step.path);
        trail_.pop_back();
    }

    void take_libraries(YamlValue& root) {
        const YamlValue* asked = member_of(root, kStockFrom);
        if (!asked) return;
        YamlValue together;
        together.shape = Shape::mapping;
        std::vector<std::string> seen;
        add_libraries(*asked, together, seen);
        remove(root, kStockFrom);
        put_before(root, together);
    }

    // Each library once, however many ask for it, after those that it asks for itself.
    void add_libraries(const YamlValue& asked, YamlValue& together, std::vector<std::string>& seen) {
        if (asked.shape == Shape::list) {
            for (const YamlValue& item : asked.items) add_library(item, together, seen);
            return;
        }
        add_library(asked, together, seen);
    }

    void add_library(const YamlValue& asked, YamlValue& together, std::vector<std::string>& seen) {
        enter(asked, kStockFrom, "the name of a stock library, a YAML file", [&](const std::string& path) {
            const std::string one = identity(path);
            if (std::find(seen.begin(), seen.end(), one) != seen.end()) return;
            seen.push_back(one);
            const YamlValue library = parse_yaml(layout_file_text(path), path);
            ProblemList problems(path);
            Section section(library, "", kLibrary, problems);
            for (const std::string_view shelf : kShelves) section.find(shelf);
            const YamlValue* more = section.find(kStockFrom);
            section.finish();
            problems.throw_if_any();
            if (more) add_libraries(*more, together, seen);
            append(together, library);
        });
    }

    static void append(YamlValue& together, const YamlValue& library) {
        for (const std::string_view key : kShelves) {
            const YamlValue* shelf = member_of(library, key);
            if (!shelf) continue;
            YamlValue* there = member_of(together, key);
            if (there && there->shape == Shape::mapping && shelf->shape == Shape::mapping)
                there->members.insert(there->members.end(), shelf->members.begin(), shelf->members.end());
            else
                together.members.push_back({scalar_at(*shelf, std::string(key)), *shelf});
        }
    }

    std::vector<Step> trail_;
    std::vector<std::string> files_;
};

// A value that stands on the command line.
YamlValue told_value(const std::string& text, const std::shared_ptr<const std::string>& place) {
    const bool flow = text.find_first_of("[{\"'") == 0;
    YamlValue value;
    if (flow) value = parse_yaml(text, *place);
    if (!flow) {
        value.shape = Shape::scalar;
        value.text = text;
    }
    const auto stand = [&](const auto& self, YamlValue& v) -> void {
        v.line = v.column = 0;
        v.file = place;
        for (YamlValue& item : v.items) self(self, item);
        for (YamlMember& m : v.members) self(self, m.key), self(self, m.value);
    };
    stand(stand, value);
    return value;
}

}  // namespace

std::string quoted_whole(const fs::path& path) {
    std::string name = path.string();
    for (char& c : name)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = '?';
    return '"' + name + '"';
}

std::string layout_file_text(const fs::path& path) {
    const std::string file = path.string();
    std::error_code error;
    const auto status = fs::status(path, error);
    if (!fs::exists(status)) refuse(file, "found no such file, expected a layout file");
    // A pipe has no size to look at first, and a folder no text.
    if (fs::is_directory(status)) refuse(file, "found a folder, expected a layout file");
    if (!fs::is_regular_file(status)) refuse(file, "found a pipe or a device, expected a layout file");
    if (const auto size = fs::file_size(path, error); error || size > kMostFileBytes)
        refuse(file, error ? "cannot be read: " + error.message()
                           : "found a file over 8 MiB, expected a smaller one");
    std::ifstream stream(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    if (!stream.is_open() || stream.bad()) refuse(file, "cannot be read");
    return text;
}

LayoutTree gather_layout(std::string_view text, const std::string& file) {
    Gathering gathering(file);
    LayoutTree tree;
    tree.root = gathering.whole(parse_yaml(text, file));
    tree.files = gathering.take_files();
    return tree;
}

void change_tree(YamlValue& root, std::span<const std::string> changes) {
    ProblemList problems("--set");
    for (const std::string& change : changes) {
        const std::size_t equals = change.find('=');
        const std::string path = change.substr(0, equals);
        const auto place = std::make_shared<const std::string>("--set " + path);
        YamlValue at;
        at.file = place;
        if (equals == std::string::npos || equals == 0 || equals + 1 == change.size()) {
            at.file = std::make_shared<const std::string>("--set");
            problems.add(at, "",
                         fmt::format("found {}, expected a key and its value, such as fields.sea.grout=black",
                                     rakelight::quoted(change)));
            continue;
        }
        override_tree(root, scalar_at(at, path), told_value(change.substr(equals + 1), place), "", problems);
    }
    problems.throw_if_any();
}

}  // namespace rakelight
