import { currentSession } from '@/app/ui/session'
import { openAttachment } from '@/lib/records/attachments'
import { getDb } from '@/lib/records/open'

type Context = { params: Promise<{ attachmentId: string }> }

/** A photo of a sheet, or a PDF as a download. Not there for anybody who may not see its well. */
export async function GET(_request: Request, { params }: Context) {
  const { attachmentId } = await params
  const session = await currentSession()
  const found = session ? await openAttachment(await getDb(), session.viewer, attachmentId) : null
  if (!found) return new Response('Not found', { status: 404 })
  const { row, bytes } = found
  const shown = row.type === 'image/jpeg' ? 'inline' : 'attachment'
  return new Response(new Uint8Array(bytes), {
    headers: {
      'Content-Type': row.type,
      'Content-Disposition': `${shown}; ${fileName(row.name)}`,
      // Said once more than proxy.ts does: a file must stay harmless wherever it is handed out.
      'Content-Security-Policy': "default-src 'none'; sandbox; frame-ancestors 'none'",
      'X-Content-Type-Options': 'nosniff',
      'Cache-Control': 'no-store',
    },
  })
}

/** RFC 6266: a plain name for old browsers, and the whole one. */
function fileName(name: string): string {
  const plain = name.replace(/[^A-Za-z0-9 ._-]/g, '_')
  const whole = encodeURIComponent(name).replace(/['()*]/g, (c) => `%${c.charCodeAt(0).toString(16)}`)
  return `filename="${plain}"; filename*=UTF-8''${whole}`
}
