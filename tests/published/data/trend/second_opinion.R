# Writes second_opinion_r.json from second_opinion_input.json (base R and MASS only).
# Command: Rscript second_opinion.R   (Debian 12 packages r-base-core, r-cran-mass)
text <- paste(readLines("second_opinion_input.json", warn = FALSE), collapse = "")
lists <- regmatches(text, gregexpr("\\[[^][]*\\]", text))[[1]]
numbers <- lapply(lists, function(l) as.numeric(strsplit(gsub("[][]", "", l), ",")[[1]]))
show <- function(x) paste0("[", paste(format(x, digits = 17, trim = TRUE, scientific = TRUE), collapse = ","), "]")
one <- function(k) {
  time <- numbers[[2 * k - 1]]; value <- numbers[[2 * k]]
  smooth <- lowess(time, value, f = 0.5, iter = 3, delta = 0)$y
  fit <- MASS::rlm(value ~ time, psi = MASS::psi.bisquare, init = MASS::rlm(value ~ time, maxit = 500, acc = 1e-12)$coefficients, maxit = 500, acc = 1e-12)
  s <- summary(fit)
  p <- sapply(split(value, (seq_along(value) - 1) %/% 5), function(v) min(1, abs(mean(v)) / 4))
  sprintf('{"lowess":%s,"rlm":%s,"rlm_se":%s,"rlm_scale":%s,"quantiles":%s,"mad":%s,"p":%s,"bh":%s}',
    show(smooth), show(coef(fit)), show(s$coefficients[, 2]), show(fit$s),
    show(quantile(value, c(0, 0.1, 0.5, 0.83, 1), type = 7)), show(mad(value)), show(p), show(p.adjust(p, "BH")))
}
writeLines(sprintf('{"versions":{"R":"%s","MASS":"%s"},"series":[%s]}', getRversion(), packageVersion("MASS"),
  paste(sapply(seq_len(length(numbers) / 2), one), collapse = ",")), "second_opinion_r.json")
