# Times R's item response models on the answers in FILE: Rscript run.R FILE
# OpenMx (Bock and Aitkin's EM in C++, all cores) with rpf's curves for the two-parameter model and the Rasch model by marginal likelihood;
# psychotools (C) for the Rasch model by conditional likelihood. The time is of the fit alone, without reading the file.
suppressMessages({ library(OpenMx); library(rpf); library(psychotools) })
file <- commandArgs(TRUE)[1]
mxOption(key = "Number of Threads", value = parallel::detectCores())
answers <- read.csv(file)
items <- names(answers)
n <- length(items)
report <- function(package, what, time, loglik)
  cat(sprintf("%s,%s,%.2f,%.2f,%.4f\n", package, what, time[["elapsed"]], time[["user.self"]] + time[["sys.self"]], loglik))

factors <- as.data.frame(lapply(answers, function(x) mxFactor(x, levels = 0:1)))
marginal <- function(what, shared) {
  im <- mxMatrix(name = "item", nrow = 4, ncol = n, values = c(1, 0, -Inf, Inf), free = c(TRUE, TRUE, FALSE, FALSE))
  rownames(im) <- c("f1", "b", "g", "u"); colnames(im) <- items
  if (shared) im$labels[1, ] <- "slope"
  model <- mxModel("m", im, mxData(factors, type = "raw"),
    mxExpectationBA81(ItemSpec = replicate(n, rpf.drm(factors = 1)), qpoints = 49, qwidth = 6), mxFitFunctionML(),
    mxComputeSequence(list(
      mxComputeEM("expectation", "scores", mxComputeNewtonRaphson(), tolerance = 1e-9),
      mxComputeOnce("fitfunction", "fit"))))
  time <- system.time(fit <- mxRun(model, silent = TRUE))
  report("OpenMx", what, time, -fit$output$fit / 2)
}
marginal("2PL marginal", FALSE)
marginal("Rasch marginal", TRUE)
time <- system.time(fit <- raschmodel(as.matrix(answers)))
report("psychotools", "Rasch conditional", time, as.numeric(logLik(fit)))
