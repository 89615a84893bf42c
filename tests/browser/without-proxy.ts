import { served } from './harness'

served.proxy = false
