# Writes the answers and figures that the tests of the three-parameter model compare with. Run in this folder: Rscript three-parameter.R
# Debian 12: R 4.2.2, r-cran-openmx 2.21.1 with r-cran-rpf 1.0.11.
# three-parameter-answers.csv: invented answers of 4000 persons to 8 items, drawn below; each pattern once with its number of persons.
# three-parameter.csv: estimates by OpenMx without any prior, and by R's own optim with the priors of docs/decisions/0060-calibrating-items.md.
suppressMessages({ library(OpenMx); library(rpf) })
RNGkind("Mersenne-Twister", "Inversion", "Rejection")
set.seed(20260301)
a <- c(1.2, 1.8, 0.9, 1.5, 2.0, 1.1, 1.4, 1.6)
b <- c(-1.0, 0.0, 0.5, 1.0, 0.8, -0.3, 1.4, 0.2)
g <- c(0.20, 0.25, 0.15, 0.20, 0.25, 0.10, 0.22, 0.18)
persons <- 4000
theta <- rnorm(persons)
answers <- sapply(seq_along(a), function(j) as.integer(runif(persons) < g[j] + (1 - g[j]) * plogis(a[j] * (theta - b[j]))))
colnames(answers) <- paste0("i", seq_along(a))
patterns <- aggregate(persons ~ ., data.frame(answers, persons = 1), sum)
write.csv(patterns, "three-parameter-answers.csv", row.names = FALSE, quote = FALSE)

rows <- list()
put <- function(method, quantity, item, value) rows[[length(rows) + 1]] <<- data.frame(method, quantity, item, value = sprintf("%.10g", value))
n <- length(a)
x <- as.matrix(patterns[, 1:n])
counts <- patterns$persons

# Marginal log-likelihood with R's own arithmetic: the trapezoidal rule on 241 points from -8 to 8. p: slopes, intercepts, logits of the asymptotes.
z <- seq(-8, 8, length.out = 241)
weight <- dnorm(z) / sum(dnorm(z))
loglik <- function(p) {
  guess <- plogis(p[2 * n + 1:n])
  chance <- sapply(1:n, function(j) guess[j] + (1 - guess[j]) * plogis(p[j] * z + p[n + j]))
  joint <- exp(x %*% t(log(chance)) + (1 - x) %*% t(log(1 - chance)))
  sum(counts * log(joint %*% weight))
}

# Without priors: OpenMx (Bock and Aitkin's expectation). Its g is the asymptote's logit.
data <- as.data.frame(lapply(as.data.frame(answers), function(v) mxFactor(v, levels = 0:1)))
im <- mxMatrix(name = "item", nrow = 4, ncol = n, values = c(1, 0, -1.4, Inf), free = c(TRUE, TRUE, TRUE, FALSE))
rownames(im) <- c("f1", "b", "g", "u"); colnames(im) <- colnames(answers)
m <- mxModel("m", im, mxData(data, type = "raw"),
  mxExpectationBA81(ItemSpec = replicate(n, rpf.drm(factors = 1)), qpoints = 101, qwidth = 6), mxFitFunctionML(),
  mxComputeSequence(list(
    mxComputeEM("expectation", "scores", mxComputeNewtonRaphson(tolerance = 1e-13), tolerance = 1e-13, maxIter = 20000L),
    mxComputeOnce("fitfunction", "fit"))))
f <- mxRun(m, silent = TRUE)
put("openmx", "loglik", "", -f$output$fit / 2)
put("openmx", "loglik-by-R", "", loglik(c(f$item$values[1, ], f$item$values[2, ], f$item$values[3, ])))
for (i in 1:n) {
  put("openmx", "slope", colnames(answers)[i], f$item$values[1, i])
  put("openmx", "intercept", colnames(answers)[i], f$item$values[2, i])
  put("openmx", "guessing", colnames(answers)[i], plogis(f$item$values[3, i]))
}

# With priors: asymptote Beta(1 + 20 m, 1 + 20 (1 - m)) with m = 0.25, slope normal (1, 1), intercept normal (0, 3), up to constants.
logprior <- function(p) {
  guess <- plogis(p[2 * n + 1:n])
  sum(20 * 0.25 * log(guess) + 20 * 0.75 * log(1 - guess) - 0.5 * (p[1:n] - 1)^2 - 0.5 * (p[n + 1:n] / 3)^2)
}
fit <- optim(c(rep(1, n), rep(0, n), rep(-1.4, n)), function(p) -(loglik(p) + logprior(p)) / persons, method = "BFGS", control = list(reltol = 1e-15, maxit = 2000, ndeps = rep(1e-5, 3 * n)))
fit <- optim(fit$par, function(p) -(loglik(p) + logprior(p)) / persons, method = "BFGS", control = list(reltol = 1e-16, maxit = 2000, ndeps = rep(1e-5, 3 * n)), hessian = TRUE)
errors <- sqrt(diag(solve(fit$hessian * persons)))
put("optim-priors", "loglik", "", loglik(fit$par))
put("optim-priors", "objective", "", -fit$value * persons)
for (i in 1:n) {
  put("optim-priors", "slope", colnames(answers)[i], fit$par[i])
  put("optim-priors", "intercept", colnames(answers)[i], fit$par[n + i])
  put("optim-priors", "guessing", colnames(answers)[i], plogis(fit$par[2 * n + i]))
  put("optim-priors", "slope-se", colnames(answers)[i], errors[i])
}
write.csv(do.call(rbind, rows), "three-parameter.csv", row.names = FALSE, quote = FALSE)
