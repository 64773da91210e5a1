#include "scene/text/tree_words.h"

namespace rakelight {

void add_tree_words(const YamlValue& tree, std::string& out,
                    const std::function<bool(std::string_view key)>& skip) {
    const auto word = [&](const std::string& text) {
        out += std::to_string(text.size());
        out.push_back(':');
        out += text;
    };
    out.push_back("0s[{"[static_cast<std::size_t>(tree.shape)]);
    word(tree.text);
    for (const YamlValue& item : tree.items) add_tree_words(item, out);
    for (const YamlMember& m : tree.members) {
        if (skip && skip(m.key.text)) continue;
        word(m.key.text);
        add_tree_words(m.value, out);
    }
    out.push_back(')');
}

}  // namespace rakelight
