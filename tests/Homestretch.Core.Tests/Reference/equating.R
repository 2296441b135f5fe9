# Writes equating.csv beside this file: equating worked out in base R, apart from the program's own code, on two sets of data.
#
#     cd tests/Homestretch.Core.Tests/Reference && Rscript equating.R
#
# Made with R 4.2.2. Data:
# - act: frequencies of number-right scores on two forms of a 40-item mathematics test, Kolen & Brennan, Test Equating, Scaling, and Linking (2nd ed. 2004), table 2.5
#   (equating-act.csv; the table is also given out with the R packages equate, GPL-3, and SNSequate, GPL (>= 2)).
# - math: the mathematics exam in real/ (see its README): items 1, 3, 5, ... as one test, items 2, 4, 6, ... as the other, the same 729 people.
rank <- function(share, x) { cut <- c(0, cumsum(share)); j <- floor(x + 0.5) + 1; cut[j] + share[j] * (x - (j - 1) + 0.5) }
inverse <- function(share, p) {
  cum <- cumsum(share); k <- length(share) - 1
  above <- which(cum > p + 1e-12); upper <- if (length(above)) { j <- above[1]; (p - (cum[j] - share[j])) / share[j] + (j - 1) - 0.5 } else k + 0.5
  under <- which(cum < p - 1e-12); lower <- if (length(under)) { j <- max(under); (p - cum[j]) / (cum[j + 1] - cum[j]) + (j - 1) + 0.5 } else -0.5
  if (!length(under) && p > 1e-12) lower <- p / share[1] - 0.5
  (upper + lower) / 2
}
equi <- function(fx, fy) sapply(0:(length(fx) - 1), function(x) inverse(fy / sum(fy), rank(fx / sum(fx), x)))
smooth <- function(f, degree) { x <- seq_along(f) - 1; suppressWarnings(glm(f ~ poly(x, degree), family = poisson, control = list(epsilon = 1e-14, maxit = 200))) }

rows <- data.frame(set = character(), figure = character(), score = integer(), value = character())
put <- function(set, figure, values, score = seq_along(values) - 1) rows <<- rbind(rows, data.frame(set, figure, score, value = format(values, digits = 15, trim = TRUE)))

act <- read.csv("equating-act.csv")
put("act", "plain", equi(act$first, act$second))
for (d in c(3, 6)) put("act", paste0("smooth", d), equi(fitted(smooth(act$first, d)), fitted(smooth(act$second, d))))

answers <- read.csv("real/math-exam-14w.csv")
stopifnot(ncol(answers) == 13, nrow(answers) == 729)
x <- rowSums(answers[, seq(1, 13, 2)]); y <- rowSums(answers[, seq(2, 13, 2)])
kx <- 7; ky <- 6
tab <- table(factor(x, 0:kx), factor(y, 0:ky))
linear <- function(tab) {
  n <- sum(tab); px <- rowSums(tab) / n; py <- colSums(tab) / n
  mx <- sum(0:kx * px); my <- sum(0:ky * py)
  my + sqrt(sum((0:ky - my)^2 * py) / sum((0:kx - mx)^2 * px)) * (0:kx - mx)
}
plain <- function(tab) equi(rowSums(tab), colSums(tab))
smoothed <- function(d) function(tab) equi(fitted(smooth(as.vector(rowSums(tab)), d)), fitted(smooth(as.vector(colSums(tab)), d)))
# Leave one person out: people with the same two scores give the same value.
jackknife <- function(f, tab) {
  n <- sum(tab); sum1 <- 0; values <- list(); weights <- c()
  for (i in 1:nrow(tab)) for (j in 1:ncol(tab)) if (tab[i, j] > 0) { less <- tab; less[i, j] <- less[i, j] - 1; values <- c(values, list(f(less))); weights <- c(weights, tab[i, j]) }
  v <- do.call(rbind, values); m <- colSums(v * weights) / n
  sqrt((n - 1) / n * colSums(weights * sweep(v, 2, m)^2))
}
for (method in list(list("linear", linear), list("plain", plain), list("smooth2", smoothed(2)), list("smooth4", smoothed(4)))) {
  put("math", method[[1]], method[[2]](tab))
  put("math", paste0(method[[1]], ".error"), jackknife(method[[2]], tab))
}
degrees <- 2:6
put("math", "aic.first", sapply(degrees, function(d) AIC(smooth(as.vector(rowSums(tab)), d))), degrees)
put("math", "aic.second", sapply(degrees, function(d) AIC(smooth(as.vector(colSums(tab)), d))), degrees)
put("math", "means", c(mean(x), mean(y)))
write.csv(rows, "equating.csv", row.names = FALSE, quote = FALSE)
