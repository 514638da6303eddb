// Header words of weather files: which quantity or part of the time a column is, and in which unit.
#include "climate/file_words.hpp"

#include <utility>

#include "base/utf8.hpp"

namespace houseleek::climate {
namespace {

struct Letter {
  std::string_view character;
  std::string_view plain;
};

constexpr Letter letters[] = {
    {"á", "a"}, {"à", "a"}, {"â", "a"}, {"ä", "a"}, {"ã", "a"}, {"é", "e"}, {"è", "e"},    {"ê", "e"},   {"ë", "e"},
    {"í", "i"}, {"î", "i"}, {"ó", "o"}, {"ô", "o"}, {"ö", "o"}, {"õ", "o"}, {"ú", "u"},    {"û", "u"},   {"ü", "u"},
    {"ñ", "n"}, {"ç", "c"}, {"É", "e"}, {"Ö", "o"}, {"Ü", "u"}, {"Ä", "a"}, {"ß", "ss"},   {"°", "deg"}, {"º", "deg"},
    {"²", "2"}, {"⁻", "-"}, {"¹", "1"}, {"³", "3"}, {"·", " "}, {"−", "-"}, {"℃", "degc"}, {"℉", "degf"}};

template <class T>
struct Phrase {
  std::string_view words;
  T meaning;
};

// The first that stands in a header counts: "dew point temperature" is no air temperature.
constexpr Phrase<WeatherColumn> quantity_phrases[] = {
    {"dew point", WeatherColumn::dew_point},
    {"dewpoint", WeatherColumn::dew_point},
    {"taupunkt", WeatherColumn::dew_point},
    {"taupunkttemperatur", WeatherColumn::dew_point},
    {"point de rosee", WeatherColumn::dew_point},
    {"punto de rocio", WeatherColumn::dew_point},
    {"diffuse", WeatherColumn::diffuse},
    {"diffusstrahlung", WeatherColumn::diffuse},
    {"diffus", WeatherColumn::diffuse},
    {"difusa", WeatherColumn::diffuse},
    {"longwave", WeatherColumn::sky_longwave},
    {"long wave", WeatherColumn::sky_longwave},
    {"gegenstrahlung", WeatherColumn::sky_longwave},
    {"vapour pressure", WeatherColumn::vapour_pressure},
    {"vapor pressure", WeatherColumn::vapour_pressure},
    {"dampfdruck", WeatherColumn::vapour_pressure},
    {"humidity", WeatherColumn::relative_humidity},
    {"rh", WeatherColumn::relative_humidity},
    {"luftfeuchte", WeatherColumn::relative_humidity},
    {"luftfeuchtigkeit", WeatherColumn::relative_humidity},
    {"feuchte", WeatherColumn::relative_humidity},
    {"humidite", WeatherColumn::relative_humidity},
    {"humedad", WeatherColumn::relative_humidity},
    {"wind", WeatherColumn::wind},
    {"windspeed", WeatherColumn::wind},
    {"windgeschwindigkeit", WeatherColumn::wind},
    {"vent", WeatherColumn::wind},
    {"viento", WeatherColumn::wind},
    {"rain", WeatherColumn::rain},
    {"rainfall", WeatherColumn::rain},
    {"precipitation", WeatherColumn::rain},
    {"precipitations", WeatherColumn::rain},
    {"precip", WeatherColumn::rain},
    {"niederschlag", WeatherColumn::rain},
    {"regen", WeatherColumn::rain},
    {"pluie", WeatherColumn::rain},
    {"lluvia", WeatherColumn::rain},
    {"precipitacion", WeatherColumn::rain},
    {"global", WeatherColumn::global},
    {"globalstrahlung", WeatherColumn::global},
    {"solar radiation", WeatherColumn::global},
    {"solar irradiance", WeatherColumn::global},
    {"solar", WeatherColumn::global},
    {"shortwave", WeatherColumn::global},
    {"rayonnement", WeatherColumn::global},
    {"radiacion", WeatherColumn::global},
    {"radiation", WeatherColumn::global},
    {"temperature", WeatherColumn::air_temperature},
    {"temp", WeatherColumn::air_temperature},
    {"lufttemperatur", WeatherColumn::air_temperature},
    {"temperatur", WeatherColumn::air_temperature},
    {"temperatura", WeatherColumn::air_temperature},
};

constexpr Phrase<TimePart> time_phrases[] = {
    {"time", TimePart::stamp},      {"date", TimePart::stamp},        {"datetime", TimePart::stamp},
    {"timestamp", TimePart::stamp}, {"epoch", TimePart::stamp},       {"zeit", TimePart::stamp},
    {"zeitpunkt", TimePart::stamp}, {"zeitstempel", TimePart::stamp}, {"datum", TimePart::stamp},
    {"clock", TimePart::stamp},     {"uhrzeit", TimePart::stamp},     {"fecha", TimePart::stamp},
    {"year", TimePart::year},       {"jahr", TimePart::year},         {"annee", TimePart::year},
    {"ano", TimePart::year},        {"month", TimePart::month},       {"monat", TimePart::month},
    {"mois", TimePart::month},      {"mes", TimePart::month},         {"day", TimePart::day},
    {"tag", TimePart::day},         {"jour", TimePart::day},          {"dia", TimePart::day},
    {"hour", TimePart::hour},       {"stunde", TimePart::hour},       {"heure", TimePart::hour},
    {"hora", TimePart::hour},       {"minute", TimePart::minute},
};

// Words that make another quantity of a known one.
constexpr std::string_view other_words[] = {
    "max",    "min",     "maximum", "minimum",  "gust",         "gusts",    "direction", "dir",      "soil",
    "ground", "surface", "indoor",  "inside",   "wet bulb",     "feels",    "apparent",  "direct",   "beam",
    "normal", "net",     "uv",      "quality",  "flag",         "absolute", "specific",  "outgoing", "reflected",
    "upward", "boden",   "innen",   "richtung", "windrichtung", "rafale",   "rafales",   "snow",     "duration",
    "dauer",  "sunrise", "sunset",  "sd",       "deficit",      "days",     "index",     "chill"};

bool is_letter_or_digit(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }

/// True if the words stand in the text, parted from others by blanks.
bool has_words(std::string_view text, std::string_view words) {
  for (std::size_t at = text.find(words); at != std::string_view::npos; at = text.find(words, at + 1)) {
    const bool begins = at == 0 || text[at - 1] == ' ';
    const std::size_t end = at + words.size();
    if (begins && (end == text.size() || text[end] == ' ')) return true;
  }
  return false;
}

/// Slashes and hyphens matter inside units only.
std::string with_parted_words(std::string folded) {
  for (char& c : folded) {
    if (c == '/' || c == '-') c = ' ';
  }
  return folded;
}

/// Takes the unit off a header: what stands in brackets, or else its last words.
std::optional<Unit> take_unit(std::string_view header, std::string& folded) {
  for (const auto& [open, close] : {std::pair{'(', ')'}, std::pair{'[', ']'}}) {
    const std::size_t begin = header.find(open);
    const std::size_t end = header.find(close, begin == std::string_view::npos ? 0 : begin);
    if (begin == std::string_view::npos || end == std::string_view::npos) continue;
    if (const auto unit = unit_from_text(header.substr(begin + 1, end - begin - 1))) {
      folded = folded_header(std::string(header.substr(0, begin)) + " " + std::string(header.substr(end + 1)));
      return unit;
    }
  }
  // The longest tail that is a unit, at least one word being left: "w per m2" before "m2".
  for (std::size_t at = folded.find(' '); at != std::string::npos; at = folded.find(' ', at + 1)) {
    if (const auto unit = unit_from_text(std::string_view(folded).substr(at + 1))) {
      folded.resize(at);
      return unit;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string folded_header(std::string_view header) {
  std::string raw;
  for (std::size_t at = 0; at < header.size();) {
    const std::size_t n_bytes = character_bytes(header, at) == 0 ? 1 : character_bytes(header, at);
    const std::string_view character = header.substr(at, n_bytes);
    at += n_bytes;
    if (n_bytes == 1) {
      const char c = character.front();
      if (c == '%') {
        raw += " percent ";
      } else {
        raw += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      }
      continue;
    }
    std::string_view plain = " ";
    for (const Letter& letter : letters) {
      if (letter.character == character) plain = letter.plain;
    }
    raw += plain;
  }
  std::string folded;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    const bool is_inner =
        i > 0 && i + 1 < raw.size() && is_letter_or_digit(raw[i - 1]) && is_letter_or_digit(raw[i + 1]);
    const bool is_kept = is_letter_or_digit(raw[i]) || (is_inner && (raw[i] == '/' || raw[i] == '-'));
    if (is_kept) {
      folded += raw[i];
    } else if (!folded.empty() && folded.back() != ' ') {
      folded += ' ';
    }
  }
  if (!folded.empty() && folded.back() == ' ') folded.pop_back();
  return folded;
}

HeaderMeaning meaning_of_header(std::string_view header) {
  HeaderMeaning meaning;
  meaning.quantity = column_with_name(header);
  if (meaning.quantity) {
    meaning.unit = units_of(*meaning.quantity).front();
    meaning.is_our_name = true;
    return meaning;
  }
  std::string folded = folded_header(header);
  meaning.unit = take_unit(header, folded);
  folded = with_parted_words(std::move(folded));
  for (const std::string_view other : other_words) {
    if (has_words(folded, other)) return {};
  }
  for (const auto& [words, quantity] : quantity_phrases) {
    if (!has_words(folded, words)) continue;
    meaning.quantity = quantity;
    return meaning;
  }
  meaning.unit.reset();
  const std::string whole = with_parted_words(folded_header(header));
  for (const auto& [words, part] : time_phrases) {
    if (!has_words(whole, words)) continue;
    meaning.time_part = part;
    meaning.is_our_name = header == time_column_name;
    meaning.says_utc = has_words(whole, "utc") || has_words(whole, "gmt");
    for (const std::string_view word : {"end", "ending", "ende", "fin"}) {
      if (has_words(whole, word)) meaning.says_marks = StampMarks::end;
    }
    for (const std::string_view word : {"start", "begin", "beginning", "beginn", "debut", "inicio"}) {
      if (has_words(whole, word)) meaning.says_marks = StampMarks::start;
    }
    break;
  }
  return meaning;
}

}  // namespace houseleek::climate
