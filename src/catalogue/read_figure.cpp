// Figures with their ranges, words of fixed lists, and where both come from, as catalogue and design write them.
#include "catalogue/read_figure.hpp"

namespace houseleek::catalogue {
namespace {

constexpr std::string_view owner = "the owner of this design";

Spread exact_figure(double value) { return {value, value, value, std::string(owner), Certainty::own_figure}; }

}  // namespace

Origin read_origin(FieldReader& reader, const TableView& table, const FigureContext& context) {
  Origin origin;
  if (context.entry == Entry::own) {
    origin.source = read_text(reader, table, "source").value_or(std::string(owner));
    origin.certainty =
        read_choice<Certainty>(reader, table, "certainty", certainty_words).value_or(Certainty::own_figure);
    return origin;
  }
  const std::string word = read_required_text(reader, table, "source", "name an entry of the table [source]");
  const auto found = context.sources.find(word);
  if (found != context.sources.end()) origin.source = found->second;
  if (found == context.sources.end() && !word.empty()) {
    std::vector<std::string> known;
    for (const auto& [key, reference] : context.sources) known.push_back(key);
    add_unknown_name(reader, *find_member(*table.node, "source"), path_from(table, "source"), "source", known);
  }
  if (has_field(reader, table, "certainty", "say how it is known: text_seen, from_memory, estimate ...")) {
    origin.certainty =
        read_choice<Certainty>(reader, table, "certainty", certainty_words).value_or(Certainty::estimate);
  }
  return origin;
}

FigureContext read_figure_context(FieldReader& reader, const TableView& root) {
  FigureContext context{.entry = Entry::catalogue, .sources = {}};
  if (!has_field(reader, root, "source", "add a table [source] with a short word for each reference")) return context;
  if (const std::optional<TableView> sources = read_table(reader, root, "source")) {
    for (const TomlMember& member : sources->node->members) {
      if (const std::optional<std::string> text = read_text(reader, *sources, member.key)) {
        context.sources.emplace(member.key, *text);
      }
    }
  }
  return context;
}

std::optional<Spread> read_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                  const FigureContext& context) {
  const TomlNode* node = find_member(*table.node, rule.key);
  if (node == nullptr) return std::nullopt;
  if (node->kind != TomlKind::table) {
    const std::optional<double> value = checked_number(reader, *node, path_from(table, rule.key), rule);
    if (!value) return std::nullopt;
    if (context.entry == Entry::catalogue) {
      add_issue(reader, IssueCode::wrong_type, *node, path_from(table, rule.key), "a table",
                fmt::format("{} is a number alone", path_from(table, rule.key)),
                "write { low = , likely = , high = , source = , certainty = }");
      return std::nullopt;
    }
    return exact_figure(*value);
  }
  const TableView figure{node, path_from(table, rule.key)};
  constexpr std::string_view known[] = {"low", "likely", "high", "source", "certainty"};
  check_keys(reader, figure, known);
  const auto part = [&](std::string_view key) {
    NumberRule part_rule = rule;
    part_rule.key = key;
    return read_number(reader, figure, part_rule);
  };
  if (!has_field(reader, figure, "likely", "add likely = the figure to use")) return std::nullopt;
  const std::size_t n_issues_before = reader.issues.size();
  const std::optional<double> likely = part("likely");
  const std::optional<double> low = part("low");
  const std::optional<double> high = part("high");
  if (context.entry == Entry::catalogue) {
    (void)has_field(reader, figure, "low", "a catalogue figure needs its range");
    (void)has_field(reader, figure, "high", "a catalogue figure needs its range");
  }
  Spread spread;
  const Origin origin = read_origin(reader, figure, context);
  spread.source = origin.source;
  spread.certainty = origin.certainty;
  if (reader.issues.size() != n_issues_before) return std::nullopt;
  spread.likely = *likely;
  spread.low = low.value_or(*likely);
  spread.high = high.value_or(*likely);
  if (spread.low > spread.likely || spread.likely > spread.high) {
    add_issue(reader, IssueCode::inconsistent, *node, figure.path, "low <= likely <= high",
              fmt::format("{} has low {}, likely {}, high {}; they must rise", figure.path, spread.low, spread.likely,
                          spread.high),
              "");
    return std::nullopt;
  }
  return spread;
}

Spread read_required_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                            const FigureContext& context) {
  const std::string hint = fmt::format("add {} = a number {}", rule.key, text_from_rule(rule));
  if (!has_field(reader, table, rule.key, hint)) return exact_figure(rule.least);
  return read_spread(reader, table, rule, context).value_or(exact_figure(rule.least));
}

std::vector<ListedWord> read_texts(FieldReader& reader, const TableView& table, std::string_view key) {
  const TomlNode* list = find_member(*table.node, key);
  if (list == nullptr) return {};
  const std::string path = path_from(table, key);
  const auto refuse = [&](const TomlNode& at, const std::string& at_path) {
    add_issue(reader, IssueCode::wrong_type, at, at_path, "a list of words",
              fmt::format("{} is {}; {} must be a list of words", at_path, written_text(reader, at), path),
              "write [\"one\", \"another\"]");
  };
  if (list->kind != TomlKind::array) {
    refuse(*list, path);
    return {};
  }
  std::vector<ListedWord> words;
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const TomlNode& item = list->items[i];
    const std::string item_path = path_from(table, key, i);
    if (item.kind != TomlKind::text) {
      refuse(item, item_path);
      continue;
    }
    const auto same = [&item](const ListedWord& one) { return one.word == item.text; };
    if (std::any_of(words.begin(), words.end(), same)) {
      add_issue(reader, IssueCode::inconsistent, item, item_path, "each word once",
                fmt::format("{} is there twice: {}", item_path, item.text), "");
      continue;
    }
    words.push_back({item.text, &item, item_path});
  }
  return words;
}

const TomlNode& member_or_table(const TableView& table, std::string_view key) {
  const TomlNode* member = find_member(*table.node, key);
  return member == nullptr ? *table.node : *member;
}

}  // namespace houseleek::catalogue
