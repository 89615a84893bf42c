/**
 * Flesch–Kincaid grade: 0.39 × words per sentence + 11.8 × syllables per word − 15.59. Source: Kincaid, Fishburne, Rogers &
 * Chissom, Naval Technical Training Command research report 8-75 (1975), with the constants as read in the documentation of
 * the libraries flesch-kincaid and odyssey. Syllables are counted as runs of vowels, less a silent e, at least one a word.
 */
export function gradeOf(counts: { sentences: number; words: number; syllables: number }): number {
  return 0.39 * (counts.words / counts.sentences) + 11.8 * (counts.syllables / counts.words) - 15.59
}

/** The grade of an English text; a colon and a line break end a sentence, as in a list. */
export function grade(text: string): number {
  const sentences = text.split(/[.!?:](?:\s|$)|\n/).filter((part) => /[a-z]/i.test(part)).length
  const words = text.match(/[A-Za-z']+/g) ?? []
  const syllables = words.reduce((sum, word) => sum + syllablesIn(word.toLowerCase()), 0)
  return gradeOf({ sentences, words: words.length, syllables })
}

/** "le" after a consonant is a syllable of its own; "es" and "ed" are silent save after t, d or a hiss. */
function syllablesIn(word: string): number {
  const bare = word
    .replace(/'s?$/, '')
    .replace(/(?<=[^aeiouytd])ed$/, '')
    .replace(/(?<![sxz]|[cs]h|c|g)es$/, '')
    .replace(/(?<!l)e$|(?<=[aeiouy]l)e$/, '')
  return Math.max(1, (bare.match(/[aeiouy]+/g) ?? []).length)
}
