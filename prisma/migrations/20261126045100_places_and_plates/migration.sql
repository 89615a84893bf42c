-- AlterTable
ALTER TABLE "Attachment" ADD COLUMN "about" TEXT;

-- CreateTable
CREATE TABLE "Plate" (
    "code" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "createdAt" TEXT NOT NULL,
    "createdBy" TEXT NOT NULL,
    "revokedAt" TEXT,
    CONSTRAINT "Plate_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Plate_wellId_createdAt_idx" ON "Plate"("wellId", "createdAt");
