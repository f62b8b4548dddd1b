# Comparisons, Dunnett, power, rank tests and correlations by R.
#
#     Rscript test/reference/decisions.R
#
# Needs multcomp, mvtnorm, exactRankTests and jsonlite (Debian: r-base-core r-cran-multcomp r-cran-exactranktests r-cran-jsonlite).

suppressPackageStartupMessages({library(multcomp); library(mvtnorm); library(exactRankTests); library(jsonlite)})
set.seed(1)

# Welch's test with its interval
a <- c(12.1, 12.9, 12.4, 12.7); b <- c(11.2, 12.6, 11.9)
w <- t.test(a, b)
welch <- list(a = a, b = b, t = unname(w$statistic), df = unname(w$parameter), p = w$p.value, low = w$conf.int[1], high = w$conf.int[2])

holm <- lapply(list(c(0.01, 0.04, 0.03), c(0.2, 0.0004, 0.051, 0.013, 0.013, 0.9)), function(p) list(p = p, adjusted = p.adjust(p, "holm")))

# Dunnett: exact rectangle probabilities of two and three t by TVPACK (Genz), by inclusion and exclusion of orthants.
orthants <- function(q, R, df) {
  k <- nrow(R)
  signs <- as.matrix(expand.grid(rep(list(c(1, -1)), k)))
  sum(apply(signs, 1, function(s) prod(s) * pmvt(upper = s * q, df = df, corr = R, algorithm = TVPACK(abseps = 1e-12))))
}
equi <- function(k, rho = 0.5) { R <- matrix(rho, k, k); diag(R) <- 1; R }
product <- function(l) { R <- outer(l, l); diag(R) <- 1; R }
few <- list(list(lambda = rep(sqrt(0.5), 2), df = 6), list(lambda = rep(sqrt(0.5), 3), df = 10), list(lambda = c(0.6, 0.7, 0.8), df = 15), list(lambda = c(0.9, 0.3), df = 3))
tvpack <- unlist(lapply(few, function(f) lapply(c(1.5, 2.5, 4), function(q) {
  R <- product(f$lambda)
  list(lambda = f$lambda, df = f$df, q = q, two_sided = 1 - orthants(q, R, f$df),
       one_sided = 1 - as.numeric(pmvt(upper = rep(q, length(f$lambda)), df = f$df, corr = R, algorithm = TVPACK(abseps = 1e-12))))
})), recursive = FALSE)

# Critical values: root of the exact probability, for two and three comparisons.
critical <- unlist(lapply(list(c(2, 6), c(2, 30), c(3, 10), c(3, 20)), function(x) lapply(c(0.05, 0.01), function(alpha) {
  R <- equi(x[1])
  list(k = x[1], df = x[2], alpha = alpha,
       two_sided = uniroot(function(q) 1 - orthants(q, R, x[2]) - alpha, c(1, 8), tol = 1e-11)$root,
       one_sided = uniroot(function(q) 1 - pmvt(upper = rep(q, x[1]), df = x[2], corr = R, algorithm = TVPACK(abseps = 1e-12)) - alpha, c(0.5, 8), tol = 1e-11)$root)
})), recursive = FALSE)

# More comparisons: randomised quasi Monte Carlo (Genz and Bretz), with its own estimate of error.
many <- lapply(list(c(5, 12, 2.9), c(7, 12, 4.08), c(8, 40, 2.7)), function(x) {
  p <- pmvt(lower = rep(-x[3], x[1]), upper = rep(x[3], x[1]), df = x[2], corr = equi(x[1]), algorithm = GenzBretz(maxpts = 1e6, abseps = 1e-5))
  list(k = x[1], df = x[2], q = x[3], two_sided = 1 - as.numeric(p), error = attr(p, "error"))
})

# The recovery data that multcomp ships: minutes of recovery under three blankets and a reference, groups of 20, 3, 3 and 15.
data("recovery", package = "multcomp")
fit <- aov(minutes ~ blanket, data = recovery)
glhtOf <- function(side) {
  g <- glht(fit, linfct = mcp(blanket = "Dunnett"), alternative = side)
  s <- summary(g, test = adjusted("single-step", algorithm = GenzBretz(maxpts = 1e6, abseps = 1e-5)))
  list(t = unname(s$test$tstat), se = unname(s$test$sigma), p = as.numeric(s$test$pvalues))
}
counts <- table(recovery$blanket)
interval <- confint(glht(fit, linfct = mcp(blanket = "Dunnett")), calpha = qmvt(0.95, df = fit$df.residual, corr = cov2cor(vcov(glht(fit, linfct = mcp(blanket = "Dunnett")))), tail = "both.tails", algorithm = GenzBretz(maxpts = 1e5, abseps = 1e-5))$quantile)
recovery_out <- list(groups = lapply(split(recovery$minutes, recovery$blanket), as.numeric), df = fit$df.residual, sizes = as.numeric(counts),
  two_sided = glhtOf("two.sided"), less = glhtOf("less"), greater = glhtOf("greater"),
  estimate = unname(interval$confint[, 1]), low = unname(interval$confint[, 2]), high = unname(interval$confint[, 3]), critical = unname(attr(interval$confint, "calpha")))

# Power
noncentral <- unlist(lapply(c(2, 10, 46.5), function(df) lapply(c(0.5, 3), function(d) list(t = 2.1, df = df, noncentrality = d, p = pt(2.1, df, d)))), recursive = FALSE)
power <- unlist(lapply(c(2, 3, 6, 12), function(n) lapply(c(0.5, 1, 2.5), function(d) list(n = n, difference = d, power = power.t.test(n, d, 1, strict = TRUE)$power))), recursive = FALSE)
replicates <- lapply(list(c(1, 0.8), c(2, 0.8), c(0.5, 0.9)), function(x) list(difference = x[1], power = x[2], n = ceiling(power.t.test(NULL, x[1], 1, power = x[2], strict = TRUE)$n)))
# Two one-sided tests: t statistics of both ends, noncentral t with correlation one (Kshirsagar's noncentral multivariate t).
tost <- unlist(lapply(c(4, 10, 46), function(df) lapply(list(c(2, 0), c(3.3, 0), c(3.3, 1.2), c(6, 1.2)), function(x) {
  t <- qt(0.95, df)
  p <- pmvt(lower = c(t, -Inf), upper = c(Inf, -t), delta = c(x[1] + x[2], x[2] - x[1]), df = df, corr = matrix(1, 2, 2), type = "Kshirsagar", algorithm = GenzBretz(maxpts = 1e6, abseps = 1e-5))
  list(margin = x[1], shift = x[2], df = df, power = as.numeric(p), error = attr(p, "error"))
})), recursive = FALSE)

# Kendall's S: exact without ties; with ties by the normal distribution with continuity correction.
y10 <- c(9, 7.5, 8, 3.1, 2.2, 4, 1, 0.5, 0.9, 0.1)
exact <- list(values = y10, p = cor.test(seq_along(y10), y10, method = "kendall", exact = TRUE)$p.value,
  rising = cor.test(seq_along(y10), y10, method = "kendall", exact = TRUE, alternative = "greater")$p.value)
ties <- list(c(1, 2, 2, 3, 2, 4, 4, 5, 4, 6, 5, 7), c(3, 3, 1, 2, 2, 2, 1, 3, 1, 1, 2, 1), round(40 * sin(1:120 / 25)))
normal <- lapply(ties, function(y) list(values = y,
  p = suppressWarnings(cor.test(seq_along(y), y, method = "kendall", exact = FALSE, continuity = TRUE)$p.value),
  tau = suppressWarnings(unname(cor.test(seq_along(y), y, method = "kendall", exact = FALSE)$estimate))))

# Two groups: Jonckheere's J is Mann and Whitney's U of the second group.
untied <- list(first = c(4.1, 5.2, 3.3, 6.6), second = c(5.9, 7.1, 6.8, 4.9, 8))
tied <- list(first = c(4, 5, 3, 6, 5), second = c(5, 7, 6, 5, 8, 6))
two_groups <- list(
  c(untied, list(u = unname(wilcox.test(untied$second, untied$first, exact = TRUE)$statistic), rising = wilcox.test(untied$second, untied$first, exact = TRUE, alternative = "greater")$p.value)),
  c(tied, list(u = unname(wilcox.exact(tied$second, tied$first)$statistic), rising = wilcox.exact(tied$second, tied$first, alternative = "greater")$p.value)))

# Correlations
x <- c(12.1, 14, 15.2, 17.9, 18.3, 11, 16.6, 13.1); y <- c(20, 26.5, 24, 33, 30.9, 22.2, 24.9, 21)
r <- cor.test(x, y)
rank <- cor.test(x, y, method = "spearman", exact = TRUE)
correlation <- list(x = x, y = y, r = unname(r$estimate), low = r$conf.int[1], high = r$conf.int[2], rho = unname(rank$estimate), p_rho = rank$p.value)

version <- function(p) as.character(packageVersion(p))
writeLines(toJSON(list(
  made_by = list(command = "Rscript test/reference/decisions.R", R = as.character(getRversion()), multcomp = version("multcomp"), mvtnorm = version("mvtnorm"), exactRankTests = version("exactRankTests")),
  welch = welch, holm = holm, dunnett_tvpack = tvpack, dunnett_critical = critical, dunnett_many = many, dunnett_recovery = recovery_out,
  noncentral_t = noncentral, power = power, replicates = replicates, tost_power = tost,
  kendall_exact = exact, kendall_normal = normal, two_groups = two_groups, correlation = correlation
), digits = NA, auto_unbox = TRUE, pretty = 1), "decisionsR.json")
