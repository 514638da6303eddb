// The fields of an event and what each kind of event wants: one table for every face of the logbook.
#include "logbook/event_fields.hpp"

#include <algorithm>
#include <array>

namespace houseleek::logbook {
namespace {

constexpr std::string_view about_keys = "module square recipe room container batch part item who note";

constexpr std::array<TextField, 14> texts = {{
    {"module", &Event::module, "which module, by its label"},
    {"square", &Event::square, "which square of the roof"},
    {"recipe", &Event::recipe, "which recipe of the design"},
    {"room", &Event::room, "which room of the design"},
    {"container", &Event::container, "which bag, pot or tub of the design"},
    {"batch", &Event::batch, "which batch of seedlings or cuttings"},
    {"part", &Event::part, "which part of a module: cover sheet, tie, core, spacer"},
    {"item", &Event::item, "which thing: a material, what a bill is for, a cause"},
    {"condition", &Event::condition, "how it was found", "good worn torn gone"},
    {"wetness", &Event::wetness, "how wet it was weighed", "dry drained soaked"},
    {"currency", &Event::currency, "of the cost, three letters: EUR"},
    {"photo", &Event::photo, "a picture's file name"},
    {"who", &Event::who, "who noted it"},
    {"note", &Event::note, "anything else"},
}};

// Limits catch slips of the unit and of the finger; nothing a roof does comes near them.
constexpr std::array<NumberField, 19> numbers = {{
    {"count", &Event::count, 0, 1e6, "", "how many", true},
    {"water_l", &Event::water_l, 0, 1e5, "l", "water given"},
    {"duration_min", &Event::duration_min, 0, 10080, "min", "how long it took"},
    {"mass_kg", &Event::mass_kg, 0, 1e5, "kg", "weight on the scale"},
    {"volume_l", &Event::volume_l, 0, 1e5, "l", "loose volume"},
    {"length_m", &Event::length_m, 0, 1e5, "m", "length"},
    {"area_m2", &Event::area_m2, 0, 1e5, "m2", "area"},
    {"depth_mm", &Event::depth_mm, 0, 2000, "mm", "depth"},
    {"height_mm", &Event::height_mm, 0, 2000, "mm", "height over the membrane"},
    {"temperature_c", &Event::temperature_c, -60, 120, "degC", "what the thermometer showed"},
    {"conductivity_ms_per_cm", &Event::conductivity_ms_per_cm, 0, 200, "mS/cm", "saltiness of the water"},
    {"vigour", &Event::vigour, 1, 5, "", "1 poor to 5 lush", true},
    {"cover_percent", &Event::cover_percent, 0, 100, "percent", "share under plants"},
    {"cost", &Event::cost, -1e9, 1e9, "", "paid; less than zero: got"},
    {"energy_kwh", &Event::energy_kwh, 0, 1e7, "kWh", "energy on the bill"},
    {"volume_m3", &Event::volume_m3, 0, 1e6, "m3", "water or gas on the bill"},
    {"gust_km_per_h", &Event::gust_km_per_h, 0, 500, "km/h", "strongest gust"},
    {"rain_mm", &Event::rain_mm, 0, 3000, "mm", "rain that fell"},
    {"hail_mm", &Event::hail_mm, 0, 300, "mm", "hailstones, across"},
}};

constexpr std::array<DayField, 2> days = {{
    {"first_day", &Event::first_day, "first day a bill is for"},
    {"last_day", &Event::last_day, "last day a bill is for"},
}};

constexpr std::array<KindRule, 29> rules = {{
    {EventKind::made, "made", "a module was made or laid", "module", "count mass_kg duration_min cost currency photo"},
    {EventKind::watered, "watered", "water was given", "", "water_l duration_min conductivity_ms_per_cm count"},
    {EventKind::fed, "fed", "feed was given", "", "mass_kg volume_l cost currency"},
    {EventKind::topped_up, "topped_up", "medium was added", "", "mass_kg volume_l depth_mm cost currency"},
    {EventKind::weighed, "weighed", "something was put on the scale", "mass_kg module|square|recipe|container|item",
     "wetness photo"},
    {EventKind::looked_at, "looked_at", "a look round: state, vigour, cover",
     "condition|vigour|cover_percent|depth_mm|conductivity_ms_per_cm|note", "photo height_mm"},
    {EventKind::repaired, "repaired", "a part was mended", "part", "condition count duration_min cost currency photo"},
    {EventKind::replaced, "replaced", "a part was replaced; the condition is the old one's", "part",
     "condition count duration_min cost currency photo"},
    {EventKind::raised, "raised", "something was raised", "module|square|container", "height_mm count"},
    {EventKind::lowered, "lowered", "something was lowered", "module|square|container", "height_mm count"},
    {EventKind::read_off, "read_off", "a thermometer was read", "temperature_c module|square|room|container|item",
     "photo"},
    {EventKind::flowered, "flowered", "in flower", "item|module|square|container", "count photo"},
    {EventKind::harvested, "harvested", "something was picked", "count|mass_kg", "photo"},
    {EventKind::died, "died", "plants or a module died", "item|module|square|container|batch", "count photo"},
    {EventKind::photographed, "photographed", "a picture was taken", "photo", ""},
    {EventKind::sown, "sown", "a batch was sown, struck or taken on", "batch count", "cost currency photo"},
    {EventKind::germinated, "germinated", "so many of a batch came up", "batch count", "photo"},
    {EventKind::potted_on, "potted_on", "so many of a batch were potted on", "batch count", "photo"},
    {EventKind::lost, "lost", "so many of a batch were lost", "batch count", "photo"},
    {EventKind::ready, "ready", "so many of a batch are ready", "batch count", "photo"},
    {EventKind::planted_out, "planted_out", "so many of a batch were planted out", "batch count", "photo"},
    {EventKind::given_away, "given_away", "so many of a batch were given away", "batch count", "cost currency"},
    {EventKind::stock_in, "stock_in", "something was bought, found or given",
     "item count|mass_kg|volume_l|length_m|area_m2", "cost currency condition photo"},
    {EventKind::stock_out, "stock_out", "something was used up or given away",
     "item count|mass_kg|volume_l|length_m|area_m2", "cost currency condition"},
    {EventKind::billed, "billed", "a bill: what for, how much, which days",
     "item first_day last_day energy_kwh|volume_m3|cost", "currency photo"},
    {EventKind::rained, "rained", "rain in the gauge since it was last emptied", "rain_mm", ""},
    {EventKind::storm, "storm", "wind, rain or hail out of the common", "gust_km_per_h|rain_mm|hail_mm|note", "photo"},
    {EventKind::noted, "noted", "anything else", "note", "count photo cost currency"},
    {EventKind::withdrawn, "withdrawn", "an earlier event never happened (with corrects)", "", ""},
}};

}  // namespace

std::span<const TextField> text_fields() { return texts; }
std::span<const NumberField> number_fields() { return numbers; }
std::span<const DayField> day_fields() { return days; }
std::span<const KindRule> kind_rules() { return rules; }

const KindRule& rule_of(EventKind kind) {
  const KindRule& rule = rules.at(static_cast<std::size_t>(kind));
  expects(rule.kind == kind, "rules of kinds in their order");
  return rule;
}

std::optional<EventKind> kind_from_text(std::string_view word) {
  for (const KindRule& rule : rules) {
    if (rule.word == word) return rule.kind;
  }
  return std::nullopt;
}

std::vector<std::string_view> words_of(std::string_view text, char between) {
  std::vector<std::string_view> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(between), text.size());
    if (end > 0) words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

bool has_use_for(const KindRule& rule, std::string_view key) {
  for (const std::string_view keys : {about_keys, rule.wants, rule.may_have}) {
    for (const std::string_view word : words_of(keys)) {
      for (const std::string_view one : words_of(word, '|')) {
        if (one == key) return true;
      }
    }
  }
  return false;
}

}  // namespace houseleek::logbook
