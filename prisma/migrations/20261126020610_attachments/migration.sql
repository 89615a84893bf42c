-- CreateTable
CREATE TABLE "Attachment" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "entryId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "stored" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "byUserId" TEXT,
    "byName" TEXT NOT NULL,
    CONSTRAINT "Attachment_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Attachment_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "Entry" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "Attachment_stored_key" ON "Attachment"("stored");

-- CreateIndex
CREATE INDEX "Attachment_wellId_idx" ON "Attachment"("wellId");

-- CreateIndex
CREATE UNIQUE INDEX "Attachment_entryId_sha256_key" ON "Attachment"("entryId", "sha256");
