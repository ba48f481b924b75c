# Reference fits for test/models and checks/: R's glm and mgcv on published data, with the project's own basis and penalty
# handed to mgcv through paraPen, so that both sides minimise the same function.
# Run in this folder: Rscript penalised-fits.R > ../references/penalised-fits.json
suppressMessages({library(mgcv); library(jsonlite); library(splines)})

# Cubic B-splines on equally spaced knots over [lo, hi] in `segments` pieces.
basis <- function(x, lo, hi, segments) {
  h <- (hi - lo) / segments
  splineDesign(lo + h * (-3:(segments + 3)), x, ord = 4, outer.ok = TRUE)
}
difference <- function(size, order) { D <- diff(diag(size), differences = order); t(D) %*% D }

synth <- read.csv("../references/synth_tr.csv")
range_x <- c(-1.3, 0.9); range_y <- c(-0.3, 1.1); segments <- 3
B1 <- basis(synth$xs, range_x[1], range_x[2], segments)
B2 <- basis(synth$ys, range_y[1], range_y[2], segments)
X <- do.call(cbind, lapply(seq_len(ncol(B1)), function(i) B1[, i] * B2))
S1 <- kronecker(difference(6, 2), diag(6)); S2 <- kronecker(diag(6), difference(6, 2))
at <- data.frame(xs = c(-.5, 0, .5), ys = c(.2, .5, .8))
Bp1 <- basis(at$xs, range_x[1], range_x[2], segments); Bp2 <- basis(at$ys, range_y[1], range_y[2], segments)
Xp <- do.call(cbind, lapply(seq_len(6), function(i) Bp1[, i] * Bp2))

tensor <- function(sp) {
  # The tensor's functions sum to one, so it holds the intercept: no other is fitted.
  pen <- if (is.null(sp)) list(X = list(S1, S2)) else list(X = list(S1, S2, sp = sp))
  m <- gam(synth$yc ~ X - 1, family = binomial, paraPen = pen, method = "REML",
           control = gam.control(epsilon = 1e-12, maxit = 500))
  list(smoothing = unname(if (is.null(sp)) m$sp else sp), edf = sum(m$edf), deviance = deviance(m),
       linear = as.vector(Xp %*% coef(m)))
}
linear <- glm(yc ~ xs + ys, family = binomial, data = synth)

temperature <- c(53,57,58,63,66,67,67,67,68,69,70,70,70,70,72,73,75,75,76,76,78,79,81)
failures <- c(2,1,1,1,0,0,0,0,0,0,1,0,1,0,0,0,0,2,0,0,0,0,0)
rings <- glm(cbind(failures, 6 - failures) ~ temperature, family = binomial)

cat(toJSON(list(
  made_with = list(R = R.version.string, mgcv = as.character(packageVersion("mgcv"))),
  oring = list(temperature = temperature, failures = failures, coefficients = unname(coef(rings)), deviance = deviance(rings),
               at31 = unname(predict(rings, data.frame(temperature = 31), type = "response"))),
  synth = list(linear = list(coefficients = unname(coef(linear)), deviance = deviance(linear)),
               range_x = range_x, range_y = range_y, segments = segments, at = at,
               fixed_1 = tensor(c(1, 1)), fixed_001 = tensor(c(.01, .01)), fixed_100 = tensor(c(100, 100)), reml = tensor(NULL))
), auto_unbox = TRUE, digits = 12, pretty = TRUE))
