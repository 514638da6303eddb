// Linear models with random groups (modules, blocks): REML variances, contrasts with Kenward and Roger's error.
#pragma once
#include <span>
#include <vector>

#include "stats/long_run.hpp"

namespace houseleek::stats {

/// n values with p fixed columns and k groupings whose levels shift all their members by a random amount.
struct MixedData {
  std::vector<double> values;                   // n
  std::vector<std::vector<double>> fixed;       // p columns of n; linearly independent
  std::vector<std::vector<int>> random_groups;  // k groupings of n labels from 0
  std::vector<std::vector<double>> contrasts;   // each of p weights: what is asked of the coefficients
};

struct MixedFit {
  std::vector<double> coefficients;        // p, generalised least squares at the REML variances
  std::vector<double> variances;           // k groupings, then the rest; 0 is a possible answer for a grouping
  double restricted_log_likelihood = 0.0;  // with its constant, (n - p) / 2 log 2 pi
  int iterations = 0;
  std::vector<Estimate> contrasts;
};

/// Fits y = X b + sum_k Z_k u_k + e by restricted maximum likelihood and judges the contrasts l'b.
/// Equation: V = sum_k s_k^2 Z_k Z_k' + s_e^2 I; scoring on -1/2 (log|V| + log|X' V^-1 X| + y' P y), each
///           variance at least 0; error of l'b from Phi_A = Phi + 2 Phi [sum_ij W_ij (Q_ij - P_i Phi P_j)] Phi; degrees
///           of freedom 2 (l' Phi l)^2 / (g' W g), g_i = l' Phi P_i Phi l
/// Symbols:  Phi = (X' V^-1 X)^-1; P_i = -X' V^-1 G_i V^-1 X; Q_ij = X' V^-1 G_i V^-1 G_j V^-1 X; G_i = dV/ds_i^2;
///           W inverse of the expected information of the variances
/// Shape:    MixedData; dense n x n matrices, so meant for tables of up to a few hundred values.
/// Units:    those of the values.
/// Valid:    n > p, X of full rank, values that are not fitted exactly (else a contract violation).
/// Errors:   variances to about 1e-8 of their size where the likelihood is not flat; no convergence in 200 steps is a
///           contract violation. A fitted variance of 0 keeps its place in W.
/// Cost:     about n^3 (k + 3) operations a step.
/// Source:   [patterson1971] (REML); [kenward1997] (error and degrees of freedom, one contrast at a time).
/// Checked by: MIX-01, MIX-02, MIX-03, MIX-04, MIX-05, MIX-06, MIX-07
[[nodiscard]] MixedFit fit_mixed_model(const MixedData& data, double confidence_frac);

}  // namespace houseleek::stats
