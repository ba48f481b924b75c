# Reference fits for checks/ratings.test.ts: random intercepts in a logistic regression by Laplace's approximation, on lme4's cbpp
# (Lesnoff et al., Preventive Veterinary Medicine 64, 2004: new cases of a disease in herds over four periods).
# Run in this folder: Rscript mixed-logit.R > ../references/mixed-logit.json
suppressMessages({library(lme4); library(jsonlite)})
data(cbpp)
cbpp$late <- factor(cbpp$period %in% c("3", "4"))
tight <- glmerControl(optimizer = "bobyqa", tolPwrss = 1e-12, optCtrl = list(rhoend = 1e-9, maxfun = 1e6))
fit <- function(formula, nAGQ) glmer(formula, data = cbpp, family = binomial, nAGQ = nAGQ, control = tight)

# The gain in log likelihood over the same fixed effects without any spread, in which binomial constants cancel.
gain <- function(m) {
  p <- plogis(as.vector(model.matrix(m) %*% fixef(m)))
  as.numeric(logLik(m)) - sum(dbinom(cbpp$incidence, cbpp$size, p, log = TRUE))
}
describe <- function(m) {
  r <- ranef(m, condVar = TRUE)
  list(fixed = unname(fixef(m)), sd = as.list(sapply(VarCorr(m), function(v) attr(v, "stddev")[[1]])), gain = gain(m),
       modes = lapply(r, function(x) as.list(setNames(x[[1]], rownames(x)))),
       sds = lapply(r, function(x) sqrt(as.vector(attr(x, "postVar")))))
}
one <- fit(cbind(incidence, size - incidence) ~ period + (1 | herd), 1)
two <- fit(cbind(incidence, size - incidence) ~ period + (1 | herd) + (1 | herd:late), 1)
many <- fit(cbind(incidence, size - incidence) ~ period + (1 | herd), 25)

cat(toJSON(list(
  made_with = list(R = R.version.string, lme4 = as.character(packageVersion("lme4"))),
  rows = data.frame(herd = as.integer(cbpp$herd), incidence = cbpp$incidence, size = cbpp$size,
                    period = as.integer(cbpp$period), late = as.integer(cbpp$late) - 1),
  herd = describe(one), herd_and_half = describe(two), quadrature = list(sd = attr(VarCorr(many)$herd, "stddev")[[1]])
), auto_unbox = TRUE, digits = 12))
