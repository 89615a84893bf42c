/** Loaded into a server before anything else: writes down every connection that it opens, one address a line. */
import { appendFileSync } from 'node:fs'
import net from 'node:net'

const file = process.env.CONNECTIONS
const connect = net.Socket.prototype.connect
net.Socket.prototype.connect = function (...args) {
  const [first] = args.flat()
  const to =
    typeof first === 'object' && first !== null
      ? (first.path ?? `${first.host}:${first.port}`)
      : String(first)
  if (file) appendFileSync(file, `${to}\n`)
  return connect.apply(this, args)
}
