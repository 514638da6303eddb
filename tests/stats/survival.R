# Lives from a file (case, low, high, n; "NA" where a side is open) fitted by R's own survival package; prints one
# line a result. Run by tests/stats/r_survival_slow_test.cpp, which holds our own figures against it.
suppressMessages(library(survival))
options(digits = 15)
lives <- read.csv(commandArgs(TRUE)[1])
for (case in unique(lives$case)) {
  d <- lives[lives$case == case, ]
  f <- survreg(Surv(low, high, type = "interval2") ~ 1, data = d, weights = n, dist = "weibull",
               control = survreg.control(rel.tolerance = 1e-14, maxiter = 200))
  cat("weibull", case, 1 / f$scale, exp(coef(f)), f$loglik[2], diag(f$var), f$var[1, 2], "\n")
  if (all(is.na(d$high) | (!is.na(d$low) & d$low == d$high))) {
    k <- survfit(Surv(low, !is.na(high)) ~ 1, data = d, weights = n, robust = FALSE)
    for (i in which(k$n.event > 0)) cat("steps", case, k$time[i], k$surv[i], k$std.err[i] * k$surv[i], "\n")
  }
}
