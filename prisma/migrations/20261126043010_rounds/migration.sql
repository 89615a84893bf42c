-- AlterTable
ALTER TABLE "Well" ADD COLUMN "gateCode" TEXT;
ALTER TABLE "Well" ADD COLUMN "hazards" TEXT;
ALTER TABLE "Well" ADD COLUMN "visitFrom" TEXT;
ALTER TABLE "Well" ADD COLUMN "visitUntil" TEXT;

-- CreateTable
CREATE TABLE "Round" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "day" TEXT NOT NULL,
    "startAt" TEXT NOT NULL,
    "endAt" TEXT NOT NULL,
    "yardLat" REAL,
    "yardLon" REAL,
    "roadFactor" REAL NOT NULL,
    "speedKmH" REAL NOT NULL,
    "assignedTo" TEXT,
    "status" TEXT NOT NULL DEFAULT 'planned',
    "notes" TEXT,
    "createdAt" TEXT NOT NULL,
    "outAt" TEXT,
    "closedAt" TEXT,
    "batchId" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "Stop" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "roundId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "locked" BOOLEAN NOT NULL DEFAULT false,
    "wellId" TEXT NOT NULL,
    "duties" TEXT NOT NULL DEFAULT '[]',
    "why" TEXT NOT NULL DEFAULT '[]',
    "minutes" INTEGER NOT NULL,
    "notBefore" TEXT,
    "doneBy" TEXT,
    "outcome" TEXT,
    "closedAt" TEXT,
    "closedOn" TEXT,
    "closedBy" TEXT,
    "visitId" TEXT,
    "said" TEXT,
    "nextSteps" TEXT NOT NULL DEFAULT '[]',
    "settledAt" TEXT,
    "settledBy" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Stop_roundId_fkey" FOREIGN KEY ("roundId") REFERENCES "Round" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Stop_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Round_status_day_idx" ON "Round"("status", "day");

-- CreateIndex
CREATE INDEX "Round_assignedTo_status_day_idx" ON "Round"("assignedTo", "status", "day");

-- CreateIndex
CREATE INDEX "Stop_roundId_position_idx" ON "Stop"("roundId", "position");

-- CreateIndex
CREATE INDEX "Stop_wellId_closedAt_idx" ON "Stop"("wellId", "closedAt");

-- CreateIndex
CREATE UNIQUE INDEX "Stop_roundId_wellId_key" ON "Stop"("roundId", "wellId");
