// Our own elementary functions: the same bits for one value and for lanes of any width, on every machine.
//
// libm and fused multiply-add change the last bits between processors, so the engine and the climate use these alone.
// Outside its stated range a function gives infinity, 0 or not a number, never undefined behaviour; only the payload of a
// not-a-number may depend on the width. Write numerics::exp(x): a bare exp(x) of a double is libm's.
#pragma once
#include "numerics/exponential.hpp"    // IWYU pragma: export
#include "numerics/roots.hpp"          // IWYU pragma: export
#include "numerics/trigonometric.hpp"  // IWYU pragma: export
