# Values that tests/stats expects, recomputed with R's own packages (Debian r-cran-lme4, r-cran-pbkrtest,
# r-cran-survival); prints them. Not run by the tests. Data Penicillin and Pastes come with lme4.
suppressMessages({library(lme4); library(pbkrtest); library(survival)})
options(digits = 10)
judge <- function(formula, data, l) {
  fit <- lmer(formula, data, control = lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-12)))
  print(as.data.frame(VarCorr(fit))[, c("grp", "vcov")])
  cat("restricted log likelihood", -REMLcrit(fit) / 2, "\n")
  cat("contrast", sum(l * fixef(fit)), "error", sqrt(as.numeric(t(l) %*% vcovAdj(fit) %*% l)),
      "degrees of freedom", get_Lb_ddf(fit, l), "\n")
}
judge(diameter ~ 1 + (1 | plate) + (1 | sample), Penicillin, 1)
judge(strength ~ 1 + (1 | batch) + (1 | sample), Pastes, 1)
# Incomplete blocks: the first two plates of each three keep four of the six samples.
row <- seq_len(nrow(Penicillin)); plate <- (row - 1) %/% 6; sample <- (row - 1) %% 6
few <- Penicillin[!((sample + plate) %% 3 == 0 & plate %% 3 < 2) & plate < 9, ]
judge(diameter ~ 0 + sample + (1 | plate), few, c(1, -1, 0, 0, 0, 0))
judge(diameter ~ 0 + sample + (1 | plate), few, c(0, 0, 1, 1, -1, -1) / 2)
# Three modules a side in three blocks, one missing; invented.
tiny <- data.frame(y = c(3.1, 2.2, 3.9, 2.4, 2.6), side = factor(c(1, 2, 1, 2, 1)), block = factor(c(1, 1, 2, 2, 3)))
judge(y ~ 0 + side + (1 | block), tiny, c(1, -1))
# A block variance of 0.
flat <- data.frame(y = c(3.1, 2.9, 2.2, 3.3, 2.4, 3.0), side = factor(c(1, 2, 1, 2, 1, 2)), block = factor(c(1, 1, 2, 2, 3, 3)))
judge(y ~ 0 + side + (1 | block), flat, c(1, -1))

weibull <- function(s) {
  f <- survreg(s ~ 1, dist = "weibull", control = survreg.control(rel.tolerance = 1e-14, maxiter = 100))
  cat("shape", 1 / f$scale, "scale", exp(coef(f)), "log likelihood", f$loglik[2], "variances", diag(f$var), f$var[1, 2], "\n")
}
weibull(Surv(c(54, 187, 216, 240, 244, 335, 361, 373, 375, 386, rep(500, 10)), c(rep(1, 10), rep(0, 10))))
low <- c(rep(NA, 3), rep(2, 5), rep(4, 6), rep(6, 3), rep(8, 3))
high <- c(rep(2, 3), rep(4, 5), rep(6, 6), rep(8, 3), rep(NA, 3))
weibull(Surv(low, high, type = "interval2"))
weibull(Surv(c(1.2, 2.5, 3, 1, 2, NA, 4, 4, 4, 2), c(1.2, 2.5, 3, 2, 4, 1, NA, NA, NA, 3.5), type = "interval2"))
