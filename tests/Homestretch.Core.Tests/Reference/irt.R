# Writes the figures that the tests of Homestretch.Core/Measurement compare with. Run in this folder: Rscript irt.R
# Debian 12: R 4.2.2, r-cran-psychotools 0.7-2, r-cran-erm 1.0-2, r-cran-openmx 2.21.1 with r-cran-rpf 1.0.11.
# The mathematics exam: real/math-exam-14w.csv is its extract. lsat6.csv: see Lsat6.cs.
suppressMessages({ library(psychotools); library(eRm); library(OpenMx); library(rpf) })
data("MathExam14W", package = "psychotools")
exam <- as.matrix(MathExam14W$solved)
colnames(exam) <- names(as.data.frame(exam))
lsat <- read.csv("lsat6.csv")
lsat <- as.matrix(lsat[rep(seq_len(nrow(lsat)), lsat$persons), 1:5])

rows <- list()
put <- function(data, method, quantity, item, value) rows[[length(rows) + 1]] <<- data.frame(data, method, quantity, item, value = sprintf("%.10g", value))

# Two thirds of the mathematics exam in a design: every second student was "given" only the first nine items, the others only the last nine.
design <- exam
design[seq(1, nrow(design), 2), 10:13] <- NA
design[seq(2, nrow(design), 2), 1:4] <- NA

conditional <- function(x, data) {
  m <- raschmodel(x, reltol = 1e-14, gradtol = 1e-12, maxit = 1000)
  d <- itempar(m)                       # mean zero
  put(data, "psychotools-cml", "loglik", "", as.numeric(logLik(m)))
  for (i in seq_along(d)) {
    put(data, "psychotools-cml", "difficulty", colnames(x)[i], coef(d)[i])
    put(data, "psychotools-cml", "difficulty-se", colnames(x)[i], sqrt(diag(vcov(d)))[i])
  }
}
conditional(lsat, "lsat6"); conditional(exam, "mathexam"); conditional(design, "mathexam-design")

e <- RM(exam)
put("mathexam", "erm-cml", "loglik", "", e$loglik)
for (i in seq_along(e$betapar)) {
  put("mathexam", "erm-cml", "difficulty", colnames(exam)[i], -e$betapar[i])
  put("mathexam", "erm-cml", "difficulty-se", colnames(exam)[i], e$se.beta[i])
}
fit <- itemfit(person.parameter(e))
for (i in seq_len(ncol(exam))) {
  put("mathexam", "erm-cml", "infit", colnames(exam)[i], fit$i.infitMSQ[i])
  put("mathexam", "erm-cml", "outfit", colnames(exam)[i], fit$i.outfitMSQ[i])
}

# Full-information marginal maximum likelihood by OpenMx's Bock and Aitkin expectation with rpf's response curves.
marginal <- function(x, data, kind) {
  items <- colnames(x); n <- length(items)
  ob <- as.data.frame(lapply(as.data.frame(x), function(v) mxFactor(v, levels = 0:1)))
  im <- mxMatrix(name = "item", nrow = 4, ncol = n, values = c(1, 0, -Inf, Inf), free = c(TRUE, TRUE, FALSE, FALSE))
  rownames(im) <- c("f1", "b", "g", "u"); colnames(im) <- items
  if (kind == "rasch") im$labels[1, ] <- "slope"
  m <- mxModel("m", im, mxData(ob, type = "raw"),
    mxExpectationBA81(ItemSpec = replicate(n, rpf.drm(factors = 1)), qpoints = 101, qwidth = 6), mxFitFunctionML(),
    mxComputeSequence(list(
      mxComputeEM("expectation", "scores", mxComputeNewtonRaphson(tolerance = 1e-13), tolerance = 1e-13, maxIter = 5000L),
      mxComputeOnce("fitfunction", "fit"))))
  f <- mxRun(m, silent = TRUE)
  method <- paste0("openmx-", kind)
  put(data, method, "loglik", "", -f$output$fit / 2)
  for (i in seq_len(n)) {
    put(data, method, "slope", items[i], f$item$values[1, i])
    put(data, method, "intercept", items[i], f$item$values[2, i])
  }
}
marginal(lsat, "lsat6", "rasch"); marginal(lsat, "lsat6", "two"); marginal(exam, "mathexam", "rasch"); marginal(exam, "mathexam", "two")
marginal(design, "mathexam-design", "rasch"); marginal(design, "mathexam-design", "two")
write.csv(do.call(rbind, rows), "irt.csv", row.names = FALSE, quote = FALSE)
