// Random numbers that are a pure function of seed, variable name, draw, day and index: no state, no order of calls.
//
// The same key gives the same number on any machine and in any thread, and a new variable does not shift the others.
#pragma once
#include <array>
#include <cstdint>
#include <string_view>

namespace houseleek {

/// Ten rounds of Philox on four 32-bit words.
/// Equation: per round (x0, x1, x2, x3) <- (hi(B x2) ^ x1 ^ k0, lo(B x2), hi(A x0) ^ x3 ^ k1, lo(A x0)); k += (P, Q)
/// Symbols:  A = 0xD2511F53, B = 0xCD9E8D57; P = 0x9E3779B9, Q = 0xBB67AE85
/// Shape:    a bijection of the counter for each key.
/// Units:    bits.
/// Valid:    every counter and key.
/// Errors:   none; whole numbers.
/// Source:   [salmon2011].
/// Checked by: RND-01, RND-02, RND-03
[[nodiscard]] constexpr std::array<std::uint32_t, 4> philox4x32_10(std::array<std::uint32_t, 4> counter,
                                                                   std::array<std::uint32_t, 2> key) {
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t a = 0xD2511F53ULL * counter[0];
    const std::uint64_t b = 0xCD9E8D57ULL * counter[2];
    counter = {static_cast<std::uint32_t>(b >> 32) ^ counter[1] ^ key[0], static_cast<std::uint32_t>(b),
               static_cast<std::uint32_t>(a >> 32) ^ counter[3] ^ key[1], static_cast<std::uint32_t>(a)};
    key[0] += 0x9E3779B9U;
    key[1] += 0xBB67AE85U;
  }
  return counter;
}

/// All the random numbers of one variable under one seed.
struct RandomVariable {
  std::array<std::uint32_t, 2> key{};
  bool operator==(const RandomVariable&) const = default;
};

/// The variable called `name` under `seed`: FNV-1a of the name, mixed with the seed by Philox itself, so that two pairs
/// share their numbers only by a chance of 2^-64.
[[nodiscard]] constexpr RandomVariable random_variable(std::uint64_t seed, std::string_view name) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char letter : name) {
    hash ^= static_cast<unsigned char>(letter);
    hash *= 0x100000001b3ULL;
  }
  const std::array<std::uint32_t, 4> mixed = philox4x32_10(
      {static_cast<std::uint32_t>(hash), static_cast<std::uint32_t>(hash >> 32), 0x484c4bU /* apart from draws */, 0U},
      {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32)});
  return {{mixed[0], mixed[1]}};
}

/// Which number of a variable: the draw (the how-manieth year or parameter set), the day, and an index within the day.
struct RandomPlace {
  std::uint32_t draw = 0;
  std::int32_t day = 0;
  std::uint32_t index = 0;
  bool operator==(const RandomPlace&) const = default;
};

/// 64 random bits.
[[nodiscard]] constexpr std::uint64_t random_bits(const RandomVariable& variable, const RandomPlace& place) {
  const std::array<std::uint32_t, 4> block =
      philox4x32_10({place.index, static_cast<std::uint32_t>(place.day), place.draw, 0U}, variable.key);
  return (static_cast<std::uint64_t>(block[1]) << 32) | block[0];
}

/// A number evenly spread over (0, 1), never 0 nor 1: (k + 1/2) 2^-52 with k the upper 52 bits.
[[nodiscard]] constexpr double random_uniform(const RandomVariable& variable, const RandomPlace& place) {
  return (static_cast<double>(random_bits(variable, place) >> 12) + 0.5) * 0x1p-52;
}

}  // namespace houseleek
