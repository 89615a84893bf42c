/** The few functions of jstat that this folder calls; the package ships no types of its own. */
declare module 'jstat' {
  type Normal = {
    cdf(x: number, mean: number, sd: number): number
    inv(p: number, mean: number, sd: number): number
  }
  type StudentT = {
    cdf(x: number, df: number): number
    inv(p: number, df: number): number
  }
  type ChiSquare = { cdf(x: number, df: number): number }
  const jstat: { normal: Normal; studentt: StudentT; chisquare: ChiSquare }
  export default jstat
}
