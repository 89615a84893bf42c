/** Pump, pipes and the parts that wear: what they take, how they age, and when they fall due. */
export * from './friction'
export * from './power'
export * from './suction'
export * from './sun'
export * from './water-physics'
