# Prints the maximum-likelihood fit that advisor/evidence is checked against, and
# writes the data (they ship with lme4, Debian package r-cran-lme4):
#   Rscript fit.R
library(lme4)
write.csv(sleepstudy, "sleepstudy.csv", row.names = FALSE, quote = FALSE)
fit <- lmer(Reaction ~ Days + (Days || Subject), sleepstudy, REML = FALSE,
            control = lmerControl(optCtrl = list(xtol_rel = 1e-12, ftol_abs = 1e-12)))
print(fixef(fit), digits = 9)
print(as.data.frame(VarCorr(fit))[, c("grp", "var1", "sdcor")], digits = 9)
cat("version", as.character(packageVersion("lme4")), "\n")
