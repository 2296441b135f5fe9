# Writes measurement-*.csv beside this file: what R's packages say of two sets of real answers (extracts in real/).
#
#     apt-get install r-base-core r-cran-psych r-cran-psychtools r-cran-psychometric r-cran-psychotools r-cran-nlme r-cran-nleqslv
#     cd tests/Homestretch.Core.Tests/Reference && Rscript measurement.R
#
# Made with R 4.2.2, psych 2.2.9, psychTools 2.2.9, psychometric 2.3, psychotools 0.7-2, nlme 3.1-162, nleqslv 3.3.4.
# Data: MathExam14W (psychotools, GPL-2 | GPL-3; Zeileis et al., Universitaet Innsbruck, first-year mathematics exam, 729 x 13) and
# ability (psychTools, GPL (>= 2); SAPA project, 1525 x 16 in four areas, blank where an item was not answered).
suppressMessages({library(psych); library(psychTools); library(psychometric); library(psychotools); library(nlme); library(nleqslv)})

figures <- data.frame(name = character(), value = character())
put <- function(name, value) if (!name %in% figures$name) figures[nrow(figures) + 1, ] <<- list(name, format(as.numeric(value), digits = 15))

# Livingston & Lewis: parameters by solving the moment equations numerically, shares by R's own quadrature. Huynh by integration over the true share.
classify <- function(set, total, k, a, cuts) {
  v <- mean((total - mean(total))^2)
  for (cut in cuts) {
    ne <- round((mean(total) * (k - mean(total)) - a * var(total)) / (var(total) * (1 - a)))
    x <- total * ne / k
    f <- function(r) mean(Reduce(`*`, lapply(0:(r - 1), function(j) (x - j) / (ne - j))))
    e <- sapply(1:4, f); mu <- e[1]; s2 <- e[2] - mu^2
    sk <- (e[3] - 3 * mu * e[2] + 2 * mu^3) / s2^1.5
    ku <- (e[4] - 4 * mu * e[3] + 6 * mu^2 * e[2] - 3 * mu^4) / s2^2
    eq <- function(p) { A <- exp(p[1]); B <- exp(p[2]); R <- exp(p[4]); S <- A + B; c(
      p[3] + R * A / S - mu, R^2 * A * B / (S^2 * (S + 1)) - s2,
      2 * (B - A) * sqrt(S + 1) / ((S + 2) * sqrt(A * B)) - sk,
      3 + 6 * ((A - B)^2 * (S + 1) - A * B * (S + 2)) / (A * B * (S + 2) * (S + 3)) - ku) }
    best <- NULL
    for (start in list(c(1, 1, 0.1, -0.3), c(0.5, 0.5, 0.2, -0.5), c(2, 2, 0, 0), c(1.5, 0.7, 0.05, -0.1), c(0, 0, 0.2, -0.4))) {
      s <- nleqslv(start, eq, control = list(ftol = 1e-13, xtol = 1e-13, maxit = 1000))
      if (max(abs(s$fvec)) < 1e-9) { best <- s$x; break }
    }
    if (is.null(best)) best <- c(0, 0, -1, 1)  # no such distribution
    A <- exp(best[1]); B <- exp(best[2]); l <- best[3]; u <- l + exp(best[4])
    put(paste0(set, ".ll.effective"), ne)
    four <- l >= 0 && u <= 1
    put(paste0(set, ".ll.parameters"), if (four) 4 else 2)
    if (!four) { l <- 0; u <- 1; t2 <- a * var(total) / k^2; m1 <- mean(total) / k; S <- m1 * (1 - m1) / t2 - 1; A <- m1 * S; B <- (1 - m1) * S }
    needed <- ceiling(cut / k * ne - 1e-9)
    pass <- function(t) pbinom(needed - 1, ne, t, lower.tail = FALSE)
    dens <- function(t) dbeta((t - l) / (u - l), A, B) / (u - l)
    int <- function(g, lo, hi) if (hi <= lo) 0 else integrate(function(t) g(t) * dens(t), lo, hi, rel.tol = 1e-11, subdivisions = 2000L)$value
    c0 <- min(max(cut / k, l), u)
    key <- paste0(set, ".ll.", cut, ".")
    put(paste0(key, "accuracy"), int(pass, c0, u) + int(function(t) 1 - pass(t), l, c0))
    put(paste0(key, "falsepass"), int(pass, l, c0))
    same <- int(function(t) pass(t)^2 + (1 - pass(t))^2, l, c0) + int(function(t) pass(t)^2 + (1 - pass(t))^2, c0, u)
    put(paste0(key, "consistency"), same)
    pp <- int(pass, l, u); pc <- pp^2 + (1 - pp)^2
    put(paste0(key, "kappa"), (same - pc) / (1 - pc))

    r21 <- k / (k - 1) * (1 - mean(total) * (k - mean(total)) / (k * v))
    A <- mean(total) * (1 / r21 - 1); B <- (k - mean(total)) * (1 / r21 - 1)
    p1 <- function(t) pbinom(cut - 1, k, t, lower.tail = FALSE)
    hu <- integrate(function(t) (p1(t)^2 + (1 - p1(t))^2) * dbeta(t, A, B), 0, 1, rel.tol = 1e-11)$value
    ph <- integrate(function(t) p1(t) * dbeta(t, A, B), 0, 1, rel.tol = 1e-11)$value
    put(paste0(set, ".huynh.", cut), hu)
    put(paste0(set, ".huynhkappa.", cut), (hu - ph^2 - (1 - ph)^2) / (1 - ph^2 - (1 - ph)^2))
  }
}

data(MathExam14W)
math <- as.matrix(MathExam14W$solved)
data(ability)
whole <- ability[complete.cases(ability), ]

for (set in c("math", "ability")) {
  m <- if (set == "math") math else whole
  k <- ncol(m); n <- nrow(m); total <- rowSums(m); v <- mean((total - mean(total))^2)
  a <- psych::alpha(m)$total$raw_alpha
  put(paste0(set, ".persons"), n)
  put(paste0(set, ".mean"), mean(total))
  put(paste0(set, ".sd"), sd(total))
  put(paste0(set, ".alpha"), a)
  ci <- psychometric::alpha.CI(a, k, n, level = 0.95)
  put(paste0(set, ".alpha.low"), ci$LCL); put(paste0(set, ".alpha.high"), ci$UCL)
  put(paste0(set, ".kr21"), k / (k - 1) * (1 - mean(total) * (k - mean(total)) / (k * v)))
  odd <- rowSums(m[, seq(1, k, 2)]); even <- rowSums(m[, seq(2, k, 2)])
  put(paste0(set, ".split"), psychometric::SBrel(2, cor(odd, even)))
  put(paste0(set, ".guttman"), 4 * cov(odd, even) / var(total))
  put(paste0(set, ".sem"), psychometric::SE.Meas(sd(total), a))
  exam <- psychometric::item.exam(as.data.frame(m))
  drop <- psych::alpha(m)$item.stats$r.drop
  for (i in 1:k) {
    put(paste0(set, ".p.", i), exam$Difficulty[i])
    put(paste0(set, ".r.", i), exam$Item.Tot.woi[i])
    stopifnot(abs(drop[i] - exam$Item.Tot.woi[i]) < 1e-10)
    put(paste0(set, ".biserial.", i), psych::biserial(total - m[, i], m[, i]))
  }

  classify(set, total, k, a, if (set == "math") c(7, 9) else c(8, 12))
}

# Scores that a four-parameter beta does fit (in the two sets above the fourth moment is too large for one).
set.seed(19951)
scores <- rbinom(500, 40, 0.2 + 0.75 * rbeta(500, 1.5, 1.2))
write.csv(data.frame(correct = scores), "measurement-scores.csv", row.names = FALSE)
classify("scores", scores, 40, 0.85, c(24, 28))

# With missing answers, covariances pair by pair.
put("missing.alpha", psych::alpha(ability)$total$raw_alpha)

# Topics: corrected correlations by psych; Haberman (2008) by the formulas of Sinharay (2010), Journal of Educational Measurement 47, 150-174.
areas <- rep(c("reason", "letter", "matrix", "rotate"), each = 4)
keys <- lapply(split(seq_along(areas), factor(areas, unique(areas))), function(i) colnames(whole)[i])
scored <- scoreItems(keys, whole, totals = TRUE, impute = "none")
S <- sapply(keys, function(i) rowSums(whole[, i])); al <- as.numeric(scored$alpha); names(al) <- names(keys)
C <- cov(S); X <- rowSums(S)
for (a in 1:3) for (b in (a + 1):4) {
  put(paste0("pair.", a, ".", b), C[a, b] / sqrt(C[a, a] * C[b, b]))
  put(paste0("corrected.", a, ".", b), scored$corrected[a, b])
}
trueC <- C; diag(trueC) <- al * diag(C)
for (s in 1:4) {
  rs <- al[s]; rxt <- sum(trueC) / var(X)
  rstxt <- sum(trueC[s, ])^2 / (trueC[s, s] * sum(trueC))
  fromx <- rstxt * rxt
  rsx <- cor(S[, s], X)
  tau <- (sqrt(fromx) - rsx * sqrt(rs)) / (1 - rsx^2)
  gamma <- sqrt(rs) - tau * rsx
  put(paste0("prmse.own.", s), rs); put(paste0("prmse.total.", s), fromx)
  put(paste0("prmse.both.", s), gamma * sqrt(rs) + tau * sqrt(fromx))
}

# Response times: log-normal model with a residual spread of its own for each item (van der Linden 2006), by nlme's maximum likelihood.
set.seed(20061)
P <- 80; J <- 6
beta <- c(3.6, 4.0, 3.9, 4.3, 3.7, 4.1); sigma <- c(.25, .4, .3, .5, .35, .3); tau <- rnorm(P, 0, .35)
times <- round(exp(sapply(1:J, function(j) beta[j] - tau + rnorm(P, 0, sigma[j]))), 1)
gone <- matrix(runif(P * J) < 0.1, P, J); gone[, 1] <- FALSE; times[gone] <- NA
write.table(times, "measurement-times.csv", sep = ",", row.names = FALSE, col.names = paste0("item", 1:J), na = "", quote = FALSE)
long <- data.frame(t = log(as.vector(times)), item = factor(rep(1:J, each = P)), person = factor(rep(1:P, J)))
long <- long[!is.na(long$t), ]
fit <- lme(t ~ 0 + item, random = ~ 1 | person, weights = varIdent(form = ~ 1 | item), data = long, method = "ML",
           control = lmeControl(tolerance = 1e-12, msTol = 1e-13, niterEM = 200, msMaxIter = 500, opt = "optim", reltol = 1e-15))
put("times.loglik", as.numeric(logLik(fit)))
put("times.speedsd", sqrt(getVarCov(fit)[1, 1]))
w <- c(1, coef(fit$modelStruct$varStruct, unconstrained = FALSE)); names(w)[1] <- setdiff(levels(long$item), names(w)[-1])
for (j in 1:J) {
  put(paste0("times.beta.", j), fixef(fit)[j])
  put(paste0("times.sigma.", j), fit$sigma * w[as.character(j)])
}
re <- ranef(fit)
for (p in 1:5) put(paste0("times.slowness.", p), re[as.character(p), 1])

write.csv(figures, "measurement-figures.csv", row.names = FALSE, quote = FALSE)
