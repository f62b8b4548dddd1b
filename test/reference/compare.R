# Comparisons of cells by R: pooled scatter, Holm, Dunnett over two blocks, Welch, paired specimens, two one-sided tests in ratio
# form, shortest sufficient curing, slope against the logarithm of age, age-adjusted correlation.
#
#     Rscript test/reference/compare.R
#
# Needs the Debian packages r-base-core, r-cran-mvtnorm, r-cran-multcomp, r-cran-jsonlite; their versions are in the output.
suppressPackageStartupMessages({
  library(multcomp)
  library(jsonlite)
})

# Invented strengths, MPa: four regimes at two ages, unequal numbers of specimens.
cells <- list(
  list(curing = "moist", age_d = 7, values = c(36.1, 37.4, 35.2, 36.9)),
  list(curing = "cloth", age_d = 7, values = c(34.0, 35.9, 35.1)),
  list(curing = "air", age_d = 7, values = c(30.2, 31.9)),
  list(curing = "wax", age_d = 7, values = c(36.5, 35.0, 37.7)),
  list(curing = "moist", age_d = 28, values = c(42.3, 40.6, 41.9)),
  list(curing = "cloth", age_d = 28, values = c(38.8, 40.5, 39.0, 40.1)),
  list(curing = "air", age_d = 28, values = c(33.3, 31.2, 32.9)),
  list(curing = "wax", age_d = 28, values = c(40.9, 42.5, 41.2))
)
data <- do.call(rbind, lapply(cells, function(cell) data.frame(curing = cell$curing, age = cell$age_d, y = cell$values)))
data$cell <- interaction(data$curing, data$age)
fit <- lm(y ~ 0 + cell, data)
s <- summary(fit)$sigma
df <- fit$df.residual
at <- function(curing, age) data$y[data$curing == curing & data$age == age]

rows <- list()
for (age in c(7, 28)) for (curing in c("air", "cloth", "wax")) {
  a <- at(curing, age)
  b <- at("moist", age)
  se <- s * sqrt(1 / length(a) + 1 / length(b))
  d <- mean(a) - mean(b)
  rows[[length(rows) + 1]] <- list(
    curing = curing, age_d = age, difference = d, se = se, t = d / se, p = 2 * pt(-abs(d / se), df),
    lo95 = d - qt(0.975, df) * se, hi95 = d + qt(0.975, df) * se, lo90 = d - qt(0.95, df) * se, hi90 = d + qt(0.95, df) * se,
    lambda = sqrt(length(a) / (length(a) + length(b))), n = length(a), n_reference = length(b)
  )
}
t <- sapply(rows, `[[`, "t")
lambda <- sapply(rows, `[[`, "lambda")
block <- rep(c(1, 2), each = 3)
correlation <- outer(lambda, lambda) * outer(block, block, "==")
diag(correlation) <- 1
set.seed(1)
dunnett <- sapply(abs(t), function(q) {
  1 - pmvt(
    lower = rep(-q, 6), upper = rep(q, 6), df = df, corr = correlation,
    algorithm = GenzBretz(maxpts = 2e6, abseps = 1e-7)
  )
})

# Two one-sided tests against shares of the reference, each with its own standard error: value - f * reference.
share <- function(a, b, f) {
  T <- mean(a) - f * mean(b)
  T / (s * sqrt(1 / length(a) + f^2 / length(b)))
}
equivalence <- lapply(c(0.05, 0.08, 0.12, 0.25), function(margin) {
  lapply(rows, function(row) {
    a <- at(row$curing, row$age_d)
    b <- at("moist", row$age_d)
    list(
      margin = margin, curing = row$curing, age_d = row$age_d,
      p_low = pt(-share(a, b, 1 - margin), df), p_high = pt(share(a, b, 1 + margin), df),
      p_below = pt(share(a, b, 1 - margin), df), p_above = pt(-share(a, b, 1 + margin), df)
    )
  })
})

# Shortest sufficient curing: share of the longest with its one-sided lower bound, and p against a margin of 10 %.
sufficient <- lapply(c("wax", "cloth", "air"), function(curing) {
  a <- at(curing, 28)
  b <- at("moist", 28)
  p <- function(f) pt(-share(a, b, f), df)
  list(
    curing = curing, p = p(0.9), lower = uniroot(function(f) p(f) - 0.05, c(0.1, mean(a) / mean(b)), tol = 1e-13)$root,
    bound = mean(a) - qt(0.95, df) * s / sqrt(length(a)),
    p_value = pt(-(mean(a) - mean(b) + 3) / (s * sqrt(1 / length(a) + 1 / length(b))), df)
  )
})

welch <- t.test(at("cloth", 28), at("moist", 28))
first <- c(-112, -98, -131, -105)
second <- c(-402, -375, -431, -390)
paired <- t.test(second, first, paired = TRUE)

# PlantGrowth, a data set of R (A. J. Dobson, An Introduction to Statistical Modelling, 1983): Dunnett's test by multcomp.
plants <- glht(lm(weight ~ group, PlantGrowth), linfct = mcp(group = "Dunnett"))
set.seed(1)
plant_test <- summary(plants, test = adjusted("single-step", abseps = 1e-8, maxpts = 1e6))$test

growth <- data.frame(
  age = rep(c(1, 3, 7, 28), c(3, 3, 2, 3)),
  y = c(28.6, 29.3, 28.1, 33.4, 31.9, 33.0, 33.5, 34.6, 35.9, 34.8, 36.6)
)
line <- lm(y ~ log10(age), growth)

# Cells of four regimes at three ages: index and strength. Partial correlation given the age.
pairs <- data.frame(
  age = rep(c(1, 7, 28), each = 4),
  x = c(28.1, 28.9, 24.0, 29.5, 33.8, 31.2, 27.6, 35.0, 35.1, 32.2, 29.8, 37.0),
  y = c(29.4, 30.1, 26.9, 29.7, 36.5, 34.0, 29.9, 37.2, 42.3, 38.0, 31.5, 41.7)
)
rx <- resid(lm(x ~ factor(age), pairs))
ry <- resid(lm(y ~ factor(age), pairs))
r <- cor(rx, ry)
fisher <- tanh(atanh(r) + c(-1, 1) * qnorm(0.975) / sqrt(12 - 2 - 3))
pooled <- cor.test(pairs$x, pairs$y)

write_json(
  list(
    versions = list(
      R = R.version.string, mvtnorm = as.character(packageVersion("mvtnorm")), multcomp = as.character(packageVersion("multcomp"))
    ),
    quantiles = list(
      shared = qt(0.975, 12 * (0.25 / 0.24)^2), apart = qt(0.975, 12 * (0.65 / 0.24)^2), fifteen = qt(0.975, 15),
      known_margin = qnorm(0.95) + qnorm(0.9)
    ),
    cells = cells, s = s, df = df, rows = rows,
    holm = p.adjust(sapply(rows, `[[`, "p"), "holm"), dunnett = dunnett, equivalence = unlist(equivalence, recursive = FALSE),
    sufficient = sufficient,
    welch = list(difference = unname(diff(rev(welch$estimate))), p = welch$p.value, df = unname(welch$parameter), interval = welch$conf.int[1:2]),
    paired = list(first = first, second = second, p = paired$p.value, difference = unname(paired$estimate), interval = paired$conf.int[1:2]),
    plants = list(
      groups = lapply(split(PlantGrowth$weight, PlantGrowth$group), identity),
      p = as.numeric(plant_test$pvalues), t = as.numeric(plant_test$tstat), estimate = as.numeric(plant_test$coefficients)
    ),
    growth = list(age = growth$age, y = growth$y, slope = unname(coef(line)[2]), interval = unname(confint(line)[2, ])),
    pairs = list(age = pairs$age, x = pairs$x, y = pairs$y, r = r, interval = fisher, pooled = unname(pooled$estimate), pooled_interval = pooled$conf.int[1:2])
  ),
  file.path(dirname(sub("--file=", "", grep("--file=", commandArgs(), value = TRUE))), "compare.json"),
  auto_unbox = TRUE, digits = NA, pretty = 2
)
