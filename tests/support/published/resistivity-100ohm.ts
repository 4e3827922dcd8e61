/** Resistivity of 25 wafers, ohm cm. Source: NIST/SEMATECH e-Handbook of Statistical Methods, data set 100OHM.DAT. */
export const resistivity100ohm: readonly number[] = [
  97.07, 97.049, 97.048, 97.084, 97.106, 97.014, 97.047, 97.078, 97.065, 97.061, 97.06, 97.102, 97.096, 97.035, 97.114,
  97.069, 97.095, 97.088, 97.079, 97.016, 97.051, 97.07, 97.065, 97.111, 97.073,
];
