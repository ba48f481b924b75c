# bam(discrete = TRUE) on the rows that bench/engine.ts wrote; called by it: Rscript engine-bam.R FOLDER NAME REPEATS
# NAME.json says how many rows, which margins; NAME.bin holds them as doubles, column by column: covariates, response, then
# the same for the rows that are held out.
suppressMessages({library(mgcv); library(jsonlite)})
args <- commandArgs(TRUE)
spec <- read_json(file.path(args[1], paste0(args[2], ".json")), simplifyVector = TRUE)
total <- (nrow(spec$margins) + 1) * (spec$train + spec$test)
numbers <- readBin(file.path(args[1], paste0(args[2], ".bin")), "double", total)
take <- function(from, rows) { m <- matrix(numbers[from + seq_len(rows * (nrow(spec$margins) + 1))], rows); colnames(m) <- c(spec$margins$covariate, "y"); as.data.frame(m) }
train <- take(0, spec$train); test <- take((nrow(spec$margins) + 1) * spec$train, spec$test)
size <- spec$margins$segments + 3
knots <- lapply(seq_len(nrow(spec$margins)), function(j) with(spec$margins[j, ], lo + (hi - lo) / segments * (-3:(segments + 3))))
names(knots) <- spec$margins$covariate
formula <- as.formula(sprintf("y ~ te(%s, bs = 'ps', k = c(%s), m = 2)", paste(spec$margins$covariate, collapse = ", "), paste(size, collapse = ", ")))
seconds <- cpu <- numeric(0)
for (i in seq_len(as.integer(args[3]))) {
  time <- system.time(m <- bam(formula, family = binomial, data = train, knots = knots, discrete = TRUE, nthreads = 1))
  seconds <- c(seconds, time[["elapsed"]]); cpu <- c(cpu, time[["user.self"]] + time[["sys.self"]])
}
p <- as.vector(predict(m, test, type = "response", discrete = FALSE))
predicting <- system.time(predict(m, test, type = "response", discrete = TRUE))[["elapsed"]]
cat(toJSON(list(seconds = seconds, cpu = cpu, logLoss = -mean(ifelse(test$y == 1, log(p), log1p(-p))), edf = sum(m$edf), coefficients = length(coef(m)),
  predictSeconds = predicting, R = R.version.string, mgcv = as.character(packageVersion("mgcv"))), auto_unbox = TRUE, digits = 10))
