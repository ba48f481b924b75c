# Reference fits for checks/engine.test.ts: R's glm, lme4, nnet and mgcv on data that come with R. Smooths are handed to mgcv
# as the project's own basis and penalty (paraPen), so that both sides maximise the same function.
# - gaussian: gam(method = "REML"); for a gaussian model the working model is the model, so every REML agrees.
# - binomial, poisson: the restricted likelihood of the working model, repeated until it stands still, as fitModel does (bam
#   does the same); gam's outer REML also counts how the weights move with the smoothing, and is written beside it.
# Run in this folder: Rscript engine-fits.R > ../references/engine-fits.json
suppressMessages({library(mgcv); library(jsonlite); library(splines); library(lme4); library(nnet)})

basis <- function(x, lo, hi, segments, cyclic = FALSE) {
  h <- (hi - lo) / segments
  B <- splineDesign(lo + h * (-3:(segments + 3)), x, ord = 4, outer.ok = TRUE)
  if (!cyclic) return(B)
  for (k in 1:3) B[, k] <- B[, k] + B[, segments + k]
  B[, 1:segments]
}
difference <- function(size, order = 2) { D <- diff(diag(size), differences = order); t(D) %*% D }
circular <- function(size) { D <- diag(size) * -2; for (i in 1:size) { D[i, i %% size + 1] <- D[i, i %% size + 1] + 1; D[i, (i - 2) %% size + 1] <- D[i, (i - 2) %% size + 1] + 1 }; t(D) %*% D }
# Sum-to-zero over the rows, absorbed.
centre <- function(X, S) {
  Z <- qr.Q(qr(colSums(X)), complete = TRUE)[, -1]
  list(X = X %*% Z, S = lapply(S, function(s) t(Z) %*% s %*% Z))
}
control <- gam.control(epsilon = 1e-13, maxit = 500)
describe <- function(m) list(smoothing = unname(m$sp), edf = sum(m$edf), deviance = deviance(m), scale = m$sig2,
                             linear = unname(as.vector(predict(m, type = "link"))), se = unname(as.vector(predict(m, type = "link", se.fit = TRUE)$se.fit)))
# REML of the working model: weighted least squares fits by gam with the scale held at one, until the weights stand still.
both <- function(y, rest, family, paraPen, env) {
  formula <- as.formula(paste("y", rest), env = list2env(c(env, list(y = y)), parent = globalenv()))
  outer <- gam(formula, family = family, paraPen = paraPen, method = "REML", control = control)
  eta <- as.vector(predict(outer, type = "link")); link <- family()
  for (i in 1:200) {
    mu <- link$linkinv(eta); w <- link$mu.eta(eta)^2 / link$variance(mu)
    assign("z", eta + (y - mu) / link$mu.eta(eta), environment(formula)); assign("w", w, environment(formula))
    work <- gam(as.formula(paste("z", rest), env = environment(formula)), weights = w, scale = 1, paraPen = paraPen, method = "REML", control = control)
    last <- eta; eta <- as.vector(predict(work))
    if (max(abs(eta - last)) < 1e-11) break
  }
  work <- describe(work); work$deviance <- sum(link$dev.resids(y, link$linkinv(eta), rep(1, length(y)))); work$passes <- i
  list(working = work, outer = describe(outer))
}

synth <- read.csv("../references/synth_tr.csv")
range_x <- c(-1.3, 0.9); range_y <- c(-0.3, 1.1)
yc <- synth$yc
tensor <- { B1 <- basis(synth$xs, -1.3, 0.9, 3); B2 <- basis(synth$ys, -0.3, 1.1, 3)
  X <- do.call(cbind, lapply(1:6, function(i) B1[, i] * B2))
  both(yc, "~ X - 1", binomial, list(X = list(kronecker(difference(6), diag(6)), kronecker(diag(6), difference(6)))), list(X = X)) }
additive <- { A <- centre(basis(synth$xs, -1.3, 0.9, 8), list(difference(11))); B <- centre(basis(synth$ys, -0.3, 1.1, 8), list(difference(11)))
  XA <- A$X; XB <- B$X
  both(yc, "~ XA + XB", binomial, list(XA = A$S, XB = B$S), list(XA = XA, XB = XB)) }

cars_fit <- { X <- basis(cars$speed, 0, 30, 8); y <- cars$dist
  describe(gam(y ~ X - 1, paraPen = list(X = list(difference(11))), method = "REML", control = control)) }
trees_fit <- { B1 <- basis(trees$Girth, 8, 21, 2); B2 <- basis(trees$Height, 60, 90, 2); y <- log(trees$Volume)
  X <- do.call(cbind, lapply(1:5, function(i) B1[, i] * B2))
  describe(gam(y ~ X - 1, paraPen = list(X = list(kronecker(difference(5), diag(5)), kronecker(diag(5), difference(5)))), method = "REML", control = control)) }
month <- rep(0:11, 20); degrees <- as.vector(nottem)
cyclic_fit <- { X <- basis(month, 0, 12, 8, TRUE); describe(gam(degrees ~ X - 1, paraPen = list(X = list(circular(8))), method = "REML", control = control)) }
by_fit <- { u <- CO2$uptake; type <- as.numeric(CO2$Type) - 1; dose <- log(CO2$conc)
  B <- basis(dose, 4.4, 7, 5); C0 <- centre(B * (type == 0), list(difference(8))); C1 <- centre(B * (type == 1), list(difference(8)))
  X0 <- C0$X; X1 <- C1$X
  describe(gam(u ~ type + X0 + X1, paraPen = list(X0 = C0$S, X1 = C1$S), method = "REML", control = control)) }
year <- as.vector(time(discoveries)); found <- as.vector(discoveries)
poisson_smooth <- { D <- centre(basis(year, 1860, 1960, 12), list(difference(15))); X <- D$X; both(found, "~ X", poisson, list(X = D$S), list(X = X)) }

exposure <- log(1 + (seq_len(54) %% 4))
wool <- as.numeric(warpbreaks$wool) - 1; tension <- as.numeric(warpbreaks$tension) - 1
pois <- glm(breaks ~ factor(wool) + factor(tension) + offset(exposure), family = poisson, data = warpbreaks, control = glm.control(epsilon = 1e-14))
weighted <- glm(breaks ~ factor(wool) + factor(tension), family = poisson, data = warpbreaks, weights = 1 + (seq_len(54) %% 3), control = glm.control(epsilon = 1e-14))

multi <- multinom(factor(tension) ~ breaks + wool, data = data.frame(tension, breaks = warpbreaks$breaks, wool), trace = FALSE, reltol = 1e-16, abstol = 1e-12, maxit = 2000)

dye <- function(file) { d <- read.csv(file); m <- lmer(Yield ~ 1 + (1 | Batch), d, REML = TRUE); v <- as.data.frame(VarCorr(m))
  list(intercept = unname(fixef(m)), between = v$vcov[1], residual = v$vcov[2], effects = ranef(m)$Batch[, 1]) }

cat(toJSON(list(
  made_with = list(R = R.version.string, mgcv = as.character(packageVersion("mgcv")), lme4 = as.character(packageVersion("lme4")), nnet = as.character(packageVersion("nnet"))),
  tensor = tensor, additive = additive,
  cars = list(speed = cars$speed, dist = cars$dist, fit = cars_fit),
  trees = list(girth = trees$Girth, height = trees$Height, logVolume = log(trees$Volume), fit = trees_fit),
  nottem = list(month = month, degrees = degrees, fit = cyclic_fit),
  CO2 = list(type = type, dose = dose, uptake = u, fit = by_fit),
  discoveries = list(year = year, found = found, fit = poisson_smooth),
  warpbreaks = list(breaks = warpbreaks$breaks, wool = wool, tension = tension, exposure = exposure,
    offset = list(coefficients = unname(coef(pois)), deviance = deviance(pois)),
    weighted = list(weights = 1 + (seq_len(54) %% 3), coefficients = unname(coef(weighted)), deviance = deviance(weighted)),
    multinomial = list(coefficients = unname(coef(multi)), deviance = deviance(multi))),
  dyestuff = dye("../references/dyestuff.csv"), dyestuff2 = suppressMessages(dye("../references/dyestuff2.csv"))
), auto_unbox = TRUE, digits = 14, pretty = FALSE))
