# Writes the extracts beside this file. Needs Debian's r-cran-psychtools and r-cran-psychotools:
#     Rscript tests/Homestretch.Core.Tests/Reference/real/extract.R
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(FALSE), value = TRUE)))
put <- function(m, name) write.csv(m, file.path(here, name), row.names = FALSE, na = "", quote = FALSE)

library(psychTools)
data(ability)
put(ability, "ability.csv")
data(blot)
put(blot, "blot.csv")

library(psychotools)
data(MathExam14W)
m <- as.matrix(MathExam14W$solved)
put(m, "math-exam-14w.csv")
