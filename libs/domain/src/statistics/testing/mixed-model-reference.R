# Makes the numbers of mixed-model.test.ts. Not run by the tests: R is no part of the project.
#   Rscript mixed-model-reference.R        (R 4.2.2, lme4 1.1-31)
suppressMessages(library(lme4))
options(digits = 12)

told <- function(name, fit) {
  cat("\n##", name, "\n")
  print(as.data.frame(VarCorr(fit))[, c("grp", "vcov")])
  cat("criterion", format(REMLcrit(fit), digits = 12), "\n")
  cat("mean", fixef(fit), "standard error", sqrt(vcov(fit)[1, 1]), "\n")
  effects <- ranef(fit, condVar = TRUE)
  for (factor in names(effects)) {
    cat(factor, "effects", format(effects[[factor]][, 1], digits = 9), "\n")
    cat(factor, "deviations", format(sqrt(attr(effects[[factor]], "postVar")[1, 1, ]), digits = 9), "\n")
  }
}
precise <- lmerControl(optCtrl = list(rhobeg = 1e-2, rhoend = 1e-12), check.conv.singular = "ignore")
fit <- function(formula, data) lmer(formula, data, REML = TRUE, control = precise)

# Davies & Goldsmith (1972), Statistical Methods in Research and Production, 4th ed., table 6.4
told("Dyestuff", fit(Yield ~ 1 + (1 | Batch), Dyestuff))
# Box & Tiao (1973), Bayesian Inference in Statistical Analysis, table 5.1.4: no variance between batches
told("Dyestuff2", fit(Yield ~ 1 + (1 | Batch), Dyestuff2))
# Davies & Goldsmith (1972), table 6.6: crossed
told("Penicillin", fit(diameter ~ 1 + (1 | plate) + (1 | sample), Penicillin))
# The same with every fifth row left out, and again every row of a plate but one: crossed and unbalanced
kept <- Penicillin[seq_len(nrow(Penicillin)) %% 5 != 0 & !(Penicillin$plate == "c" & Penicillin$sample != "A"), ]
told("Penicillin, unbalanced", fit(diameter ~ 1 + (1 | plate) + (1 | sample), kept))
# Davies & Goldsmith (1972), table 6.5: casks within batches
told("Pastes", fit(strength ~ 1 + (1 | batch) + (1 | sample), Pastes))
cat("\nDyestuff", Dyestuff$Yield, "\nDyestuff2", Dyestuff2$Yield, "\n")
cat("Penicillin", Penicillin$diameter, "\n")
cat("Pastes", Pastes$strength, "\n")
