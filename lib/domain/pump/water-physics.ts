/** Standard gravity, m/s². */
export const GRAVITY_M_PER_S2 = 9.80665

/**
 * Air pressure in Pa at an altitude in m, US Standard Atmosphere 1976 (ISO 2533 below 11 km).
 * Throws  RangeError outside −1,000 to 11,000 m, where the formula does not hold.
 */
export function atmosphericPressurePa(altitudeM: number): number {
  if (!(altitudeM >= -1000 && altitudeM <= 11_000)) throw new RangeError(`altitude ${altitudeM} m`)
  return 101_325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588
}

/**
 * Pressure in Pa at which water boils at a temperature in °C.
 * Source  Wagner & Pruss 1993, J. Phys. Chem. Ref. Data 22:783-787 (IAPWS SR1-86).
 * Throws  RangeError outside 0 to 100 °C.
 */
export function vapourPressurePa(temperatureC: number): number {
  const kelvin = liquidKelvin(temperatureC)
  const tau = 1 - kelvin / 647.096
  const sum =
    -7.85951783 * tau +
    1.84408259 * tau ** 1.5 -
    11.7866497 * tau ** 3 +
    22.6807411 * tau ** 3.5 -
    15.9618719 * tau ** 4 +
    1.80122502 * tau ** 7.5
  return 22_064_000 * Math.exp((647.096 / kelvin) * sum)
}

/**
 * Density of water in kg/m³ at a temperature in °C.
 * Source  Kell 1975, J. Chem. Eng. Data 20:97-105.
 */
export function waterDensityKgPerM3(temperatureC: number): number {
  liquidKelvin(temperatureC)
  const t = temperatureC
  const top =
    999.83952 +
    16.945176 * t -
    7.9870401e-3 * t ** 2 -
    46.170461e-6 * t ** 3 +
    105.56302e-9 * t ** 4 -
    280.54253e-12 * t ** 5
  return top / (1 + 16.89785e-3 * t)
}

/**
 * Dynamic viscosity of water in Pa·s at a temperature in °C, within some 2.5 % from 0 to 100 °C.
 * Source  Vogel's equation 2.414e-5 × 10^(247.8/(T − 140)), T in kelvin.
 */
export function waterViscosityPaS(temperatureC: number): number {
  return 2.414e-5 * 10 ** (247.8 / (liquidKelvin(temperatureC) - 140))
}

/** Height in m of a column of water that makes a pressure in Pa. */
export function headM(pressurePa: number, densityKgPerM3: number): number {
  return pressurePa / (densityKgPerM3 * GRAVITY_M_PER_S2)
}

function liquidKelvin(temperatureC: number): number {
  if (!(temperatureC >= 0 && temperatureC <= 100)) throw new RangeError(`water at ${temperatureC} °C`)
  return temperatureC + 273.15
}
