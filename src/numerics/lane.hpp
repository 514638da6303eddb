// Lanes: several independent systems worked on by one piece of code; a plain double is one lane.
//
// Every function here does the same correctly rounded operation in each lane, so results do not depend on the width.
#pragma once
#include <bit>
#include <cstdint>

namespace houseleek::numerics {

// Spelled out by width: g++ 12 drops the vector attribute from a type that depends on a template parameter.
template <int n>
struct LaneVectors;
template <>
struct LaneVectors<2> {
  typedef double Double __attribute__((vector_size(16)));
  typedef std::int64_t Bits __attribute__((vector_size(16)));
  typedef std::uint64_t Unsigned __attribute__((vector_size(16)));
};
template <>
struct LaneVectors<4> {
  typedef double Double __attribute__((vector_size(32)));
  typedef std::int64_t Bits __attribute__((vector_size(32)));
  typedef std::uint64_t Unsigned __attribute__((vector_size(32)));
};
template <>
struct LaneVectors<8> {
  typedef double Double __attribute__((vector_size(64)));
  typedef std::int64_t Bits __attribute__((vector_size(64)));
  typedef std::uint64_t Unsigned __attribute__((vector_size(64)));
};

// Registers of this build hold so many doubles. Comparisons and choices of wider vectors are made piece by piece here: g++ 12
// would make a jump of each element, which is slow, and (seen with -O1 and -O2) then loses the stack of calls in between.
template <int n>
inline constexpr bool fits_register = n * 8 <= __BIGGEST_ALIGNMENT__ || n == 2;

template <class Half, class Whole>
inline Half half_of(const Whole& whole, int which) {
  static_assert(2 * sizeof(Half) == sizeof(Whole));
  Half half;
  __builtin_memcpy(&half, reinterpret_cast<const char*>(&whole) + which * static_cast<int>(sizeof(Half)), sizeof(Half));
  return half;
}
template <class Whole, class Half>
inline Whole join(const Half& low, const Half& high) {
  static_assert(2 * sizeof(Half) == sizeof(Whole));
  Whole whole;
  __builtin_memcpy(&whole, &low, sizeof(Half));
  __builtin_memcpy(reinterpret_cast<char*>(&whole) + sizeof(Half), &high, sizeof(Half));
  return whole;
}

template <int n>
struct LaneMask {
  using Vector = typename LaneVectors<n>::Bits;
  Vector bits;  // all ones or all zeros in each lane
};

/// `n` doubles side by side (2, 4 or 8).
template <int n>
struct Lane {
  using Vector = typename LaneVectors<n>::Double;
  Vector v;
  Lane() = default;
  Lane(double same_in_all) : v(same_in_all - Vector{}) {}  // NOLINT(*explicit*): x - 0 keeps every bit of x
  explicit Lane(Vector vector) : v(vector) {}
  friend Lane operator+(Lane a, Lane b) { return Lane(a.v + b.v); }
  friend Lane operator-(Lane a, Lane b) { return Lane(a.v - b.v); }
  friend Lane operator*(Lane a, Lane b) { return Lane(a.v * b.v); }
  friend Lane operator/(Lane a, Lane b) { return Lane(a.v / b.v); }
  friend Lane operator-(Lane a) { return Lane(-a.v); }
  Lane& operator+=(Lane b) { return *this = *this + b; }
  Lane& operator-=(Lane b) { return *this = *this - b; }
  Lane& operator*=(Lane b) { return *this = *this * b; }
  friend LaneMask<n> operator<(Lane a, Lane b) {
    if constexpr (fits_register<n>) {
      return {a.v < b.v};
    } else {
      using Half = Lane<n / 2>;
      return join<LaneMask<n>>(half_of<Half>(a, 0) < half_of<Half>(b, 0), half_of<Half>(a, 1) < half_of<Half>(b, 1));
    }
  }
  friend LaneMask<n> operator<=(Lane a, Lane b) {
    if constexpr (fits_register<n>) {
      return {a.v <= b.v};
    } else {
      using Half = Lane<n / 2>;
      return join<LaneMask<n>>(half_of<Half>(a, 0) <= half_of<Half>(b, 0), half_of<Half>(a, 1) <= half_of<Half>(b, 1));
    }
  }
  friend LaneMask<n> operator>(Lane a, Lane b) {
    if constexpr (fits_register<n>) {
      return {a.v > b.v};
    } else {
      using Half = Lane<n / 2>;
      return join<LaneMask<n>>(half_of<Half>(a, 0) > half_of<Half>(b, 0), half_of<Half>(a, 1) > half_of<Half>(b, 1));
    }
  }
  friend LaneMask<n> operator>=(Lane a, Lane b) {
    if constexpr (fits_register<n>) {
      return {a.v >= b.v};
    } else {
      using Half = Lane<n / 2>;
      return join<LaneMask<n>>(half_of<Half>(a, 0) >= half_of<Half>(b, 0), half_of<Half>(a, 1) >= half_of<Half>(b, 1));
    }
  }
};

template <class L>
struct LaneTraits;
template <>
struct LaneTraits<double> {
  static constexpr int width = 1;
  using Mask = bool;
  using Bits = std::uint64_t;
};
template <int n>
struct LaneTraits<Lane<n>> {
  static constexpr int width = n;
  using Mask = LaneMask<n>;
  using Bits = typename LaneVectors<n>::Unsigned;
};
template <class L>
inline constexpr int lane_width = LaneTraits<L>::width;
template <class L>
using MaskOf = typename LaneTraits<L>::Mask;
template <class L>
using BitsOf = typename LaneTraits<L>::Bits;  // unsigned: shifts and overflow are defined
template <class L>
concept LaneType = requires {
  LaneTraits<L>::width;
};

// One lane.
inline double select(bool mask, double if_true, double if_false) { return mask ? if_true : if_false; }
inline bool mask_and(bool a, bool b) { return a && b; }
inline bool mask_or(bool a, bool b) { return a || b; }
inline bool mask_not(bool a) { return !a; }
inline bool any(bool mask) { return mask; }
inline bool all(bool mask) { return mask; }
inline double sqrt(double x) { return __builtin_sqrt(x); }
inline double abs(double x) { return __builtin_fabs(x); }
inline std::uint64_t bits_of(double x) { return std::bit_cast<std::uint64_t>(x); }
inline double lane_at(double x, int) { return x; }
inline void set_lane(double& x, int, double value) { x = value; }

// Several lanes.
template <int n>
inline Lane<n> select(LaneMask<n> mask, Lane<n> if_true, Lane<n> if_false) {
  if constexpr (fits_register<n>) {
    return Lane<n>(mask.bits ? if_true.v : if_false.v);
  } else {
    using Half = Lane<n / 2>;
    using HalfMask = LaneMask<n / 2>;
    return join<Lane<n>>(select(half_of<HalfMask>(mask, 0), half_of<Half>(if_true, 0), half_of<Half>(if_false, 0)),
                         select(half_of<HalfMask>(mask, 1), half_of<Half>(if_true, 1), half_of<Half>(if_false, 1)));
  }
}
template <int n>
inline LaneMask<n> mask_and(LaneMask<n> a, LaneMask<n> b) {
  return {a.bits & b.bits};
}
template <int n>
inline LaneMask<n> mask_or(LaneMask<n> a, LaneMask<n> b) {
  return {a.bits | b.bits};
}
template <int n>
inline LaneMask<n> mask_not(LaneMask<n> a) {
  return {~a.bits};
}
template <int n>
inline bool any(LaneMask<n> mask) {
  std::int64_t found = 0;
  for (int i = 0; i < n; ++i) found |= mask.bits[i];
  return found != 0;
}
template <int n>
inline bool all(LaneMask<n> mask) {
  return !any(mask_not(mask));
}
template <int n>
inline Lane<n> sqrt(Lane<n> x) {
  Lane<n> root;
  for (int i = 0; i < n; ++i) root.v[i] = __builtin_sqrt(x.v[i]);
  return root;
}
template <int n>
inline Lane<n> abs(Lane<n> x) {
  using Bits = typename LaneVectors<n>::Bits;
  return Lane<n>(reinterpret_cast<typename Lane<n>::Vector>(reinterpret_cast<Bits>(x.v) & ~(Bits{} + (1LL << 63))));
}
template <int n>
inline BitsOf<Lane<n>> bits_of(Lane<n> x) {
  return reinterpret_cast<BitsOf<Lane<n>>>(x.v);
}
template <int n>
inline double lane_at(Lane<n> x, int i) {
  return x.v[i];
}
template <int n>
inline void set_lane(Lane<n>& x, int i, double value) {
  x.v[i] = value;
}

/// Lanes from `value(i)`, put together in registers: writing lanes one by one and reading them as one waits for memory.
template <LaneType L, class Value>
inline L from_lanes(const Value& value) {
  if constexpr (lane_width<L> == 1) {
    return value(0);
  } else if constexpr (lane_width<L> == 2) {
    return L(typename L::Vector{value(0), value(1)});
  } else if constexpr (lane_width<L> == 4) {
    return L(typename L::Vector{value(0), value(1), value(2), value(3)});
  } else {
    static_assert(lane_width<L> == 8);
    return L(typename L::Vector{value(0), value(1), value(2), value(3), value(4), value(5), value(6), value(7)});
  }
}

/// The doubles with these bits.
template <LaneType L>
inline L from_bits(BitsOf<L> bits) {
  if constexpr (lane_width<L> == 1) {
    return std::bit_cast<double>(bits);
  } else {
    return L(reinterpret_cast<typename L::Vector>(bits));
  }
}

/// The smaller; the second where the two are equal (so that signed zeros do not depend on the width).
template <class L>
inline L min(L a, L b) {
  return select(a < b, a, b);
}
template <class L>
inline L max(L a, L b) {
  return select(a > b, a, b);
}

}  // namespace houseleek::numerics
