// Interest: factors, present value, internal rates, and when an outlay has come back. Knows no design.
#pragma once
#include <optional>
#include <span>
#include <vector>

namespace houseleek::money {

/// A sum now and the same sum after some periods; a level row of payments at the ends of periods; a row that rises.
/// Equation: F/P = (1 + i)^n; F/A = (F/P - 1) / i; P/A = F/A / (F/P); A/P = 1 / (P/A); P/G = (P/A - n / (F/P)) / i
/// Symbols:  i: interest a period; n: periods; P: now; F: at the end; A: a payment a period; G: rise a period, from the
///           second on
/// Shape:    two scalars in, one out; pure.
/// Units:    shares a period; pure numbers out.
/// Valid:    i > -1, n >= 0; n >= 1 for A/P (else a contract violation). i = 0 by its limit.
/// Errors:   rounding only; P/G loses digits below i = 1e-4 and takes its series there.
/// Source:   definition; factor tables of engineering economics.   Checked by: MON-01 to MON-20.
[[nodiscard]] double future_of_present(double interest_frac, int n_periods);    // F/P
[[nodiscard]] double future_of_payments(double interest_frac, int n_periods);   // F/A
[[nodiscard]] double present_of_payments(double interest_frac, int n_periods);  // P/A
[[nodiscard]] double payment_of_present(double interest_frac, int n_periods);   // A/P
[[nodiscard]] double present_of_gradient(double interest_frac, int n_periods);  // P/G

/// Present value of payments at the ends of n periods, the first of 1, each later one higher by a share g.
/// Equation: P = (1 - ((1 + g) / (1 + i))^n) / (i - g); n / (1 + i) where i = g
/// Source:   definition.   Checked by: MON-21.
[[nodiscard]] double present_of_growing_payments(double interest_frac, double growth_frac, int n_periods);

/// Interest above the rise of prices. Equation: (1 + nominal) / (1 + rise) - 1.   Checked by: MON-22.
[[nodiscard]] double real_interest_frac(double nominal_frac, double rise_frac);

/// Payments of one period each, the first now, a plus for what comes in.
using Flow = std::span<const double>;

/// Equation: sum over t of c_t / (1 + i)^t
/// Shape:    any number of payments; pure.
/// Valid:    i > -1 (else a contract violation).
/// Source:   definition.   Checked by: MON-30 to MON-36.
[[nodiscard]] double net_present_value(Flow flow, double interest_frac);

/// Every interest above -1 at which the net present value is zero, rising; none where it never is.
/// Equation: f(s) = sum c_t exp(-s t), s = log(1 + i). With p between the places of a change of sign,
///           exp(-s p) d/ds(f exp(s p)) = sum (p - t) c_t exp(-s t) has one change of sign fewer, and between two of its
///           zeros f has at most one (Rolle). So down to one change of sign, which has one zero, and back.
/// Symbols:  c_t: payment of period t
/// Shape:    payments in, rates out; pure. A zero that only touches is given once.
/// Valid:    rates between -0.9999 and 1e4 a period; others are not looked for.
/// Errors:   1e-12 in s; zeros nearer to each other than 1e-6 may count as one.
/// Cost:     changes of sign times payments times bisections.
/// Source:   Descartes' rule of signs for sums of exponentials.   Checked by: MON-40 to MON-50, InternalRates.*
[[nodiscard]] std::vector<double> internal_rates(Flow flow);

/// When what has come in makes up for what has gone out, counted in periods; by a straight line within the period in
/// which that happens for the last time: later outlay may have to come back too. None where the end does not see it.
/// Equation: k + (-S_k) / (S_(k+1) - S_k), S_k: sum of payments of periods 0 to k, each over (1 + i)^t; k: the last
///           period with S_k < 0
/// Shape:    payments in, a number of periods out; 0 where nothing is ever owed; pure.
/// Valid:    i > -1; i = 0 is the simple one.
/// Source:   definition.   Checked by: MON-60 to MON-64.
[[nodiscard]] std::optional<double> payback_periods(Flow flow, double interest_frac);

}  // namespace houseleek::money
