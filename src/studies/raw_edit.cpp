// Fields written into a description before it is read through its one door.
#include "studies/raw_edit.hpp"

#include "base/nearest_name.hpp"
#include "catalogue/words.hpp"

namespace houseleek::studies {

TomlNode* member_of(TomlNode& table, std::string_view key) {
  for (TomlMember& member : table.members) {
    if (member.key == key) return &member.node;
  }
  return nullptr;
}

TomlNode& add_member(TomlNode& table, std::string_view key, TomlKind kind) {
  TomlNode node;
  node.kind = kind;
  node.begin = node.end = table.begin;
  table.members.push_back({std::string(key), table.begin, std::move(node)});
  return table.members.back().node;
}

void set_number(TomlNode& table, std::string_view key, double value) {
  TomlNode* node = member_of(table, key);
  if (node == nullptr) node = &add_member(table, key, TomlKind::number);
  node->kind = TomlKind::number;
  node->number = value;
  node->text.clear();
  node->items.clear();
  node->members.clear();
}

void set_text(TomlNode& table, std::string_view key, std::string text) {
  TomlNode* node = member_of(table, key);
  if (node == nullptr) node = &add_member(table, key, TomlKind::text);
  node->text = std::move(text);
}

TomlNode& entry_named(TomlNode& table, std::string_view list_key, std::string_view name) {
  TomlNode* list = member_of(table, list_key);
  if (list == nullptr) list = &add_member(table, list_key, TomlKind::array);
  for (TomlNode& entry : list->items) {
    const TomlNode* own = find_member(entry, "name");
    if (own != nullptr && folded_name(own->text) == folded_name(name)) return entry;
  }
  TomlNode entry;
  entry.begin = entry.end = list->begin;
  set_text(entry, "name", std::string(name));
  list->items.push_back(std::move(entry));
  return list->items.back();
}

TomlNode& material_table(TomlNode& root, std::string_view name) { return entry_named(root, "material", name); }

TomlNode& table_named(TomlNode& table, std::string_view key) {
  TomlNode* node = member_of(table, key);
  return node == nullptr ? add_member(table, key, TomlKind::table) : *node;
}

void set_spread(TomlNode& table, std::string_view key, const catalogue::Spread& spread) {
  TomlNode& node = table_named(table, key);
  node.kind = TomlKind::table;
  node.text.clear();
  node.items.clear();
  node.members.clear();
  set_number(node, "low", spread.low);
  set_number(node, "likely", spread.likely);
  set_number(node, "high", spread.high);
  set_text(node, "source", spread.source);
  for (const auto& [word, certainty] : catalogue::certainty_words) {
    if (certainty == spread.certainty) set_text(node, "certainty", std::string(word));
  }
}

}  // namespace houseleek::studies
