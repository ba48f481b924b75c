# Reference scores for test/numeric/scores.test.ts, isotonic.test.ts and calibration.test.ts: scikit-learn's log loss, Brier
# score, isotonic regression and calibration curve on invented vectors, which are written out with the results.
# Run in this folder with Debian's python3-sklearn: /usr/bin/python3 scores.py > ../references/scores.json
import json

import numpy
import sklearn
from sklearn.calibration import calibration_curve
from sklearn.isotonic import IsotonicRegression
from sklearn.metrics import brier_score_loss, log_loss

random = numpy.random.RandomState(20)
n = 240
# Two decimals, so that forecasts are tied; outcomes from bent chances, so that the forecasts are not calibrated.
forecast = numpy.round(numpy.clip(random.beta(1.2, 0.9, n), 0.01, 0.99), 2)
outcome = (random.uniform(size=n) < forecast**1.6).astype(int)
values = numpy.round(numpy.linspace(0, 3, 60) + random.normal(size=60), 3)
weights = numpy.round(random.uniform(0.5, 4, size=60), 2)


def floats(array):
    return [float(x) for x in array]


isotonic = IsotonicRegression(increasing=True).fit_transform(numpy.arange(60), values, sample_weight=weights)
recalibrated = IsotonicRegression(increasing=True).fit_transform(forecast, outcome)
share, mean = calibration_curve(outcome, forecast, n_bins=5, strategy="uniform")
print(json.dumps({
    "made_with": {"scikit-learn": sklearn.__version__, "numpy": numpy.__version__},
    "forecast": floats(forecast),
    "outcome": [int(x) for x in outcome],
    "log_loss": float(log_loss(outcome, forecast)),
    "brier": float(brier_score_loss(outcome, forecast)),
    "recalibrated": floats(recalibrated),
    "brier_recalibrated": float(brier_score_loss(outcome, recalibrated)),
    "fifths": {"expected": floats(mean), "observed": floats(share)},
    "values": floats(values),
    "weights": floats(weights),
    "isotonic": floats(isotonic),
}, indent=1))
