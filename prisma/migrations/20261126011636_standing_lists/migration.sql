-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Standing" (
    "wellId" TEXT NOT NULL PRIMARY KEY,
    "edition" INTEGER NOT NULL,
    "settings" INTEGER NOT NULL DEFAULT 0,
    "lastVisitOn" TEXT,
    "payload" TEXT NOT NULL,
    "listed" BOOLEAN NOT NULL DEFAULT true,
    "suspicion" REAL NOT NULL DEFAULT 0,
    "losing" BOOLEAN NOT NULL DEFAULT false,
    "cause" TEXT NOT NULL DEFAULT 'unclear',
    "water" TEXT NOT NULL DEFAULT 'not-tested',
    "sampledOn" TEXT,
    "chain" TEXT,
    "chainOn" TEXT,
    CONSTRAINT "Standing_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Standing" ("edition", "lastVisitOn", "payload", "wellId") SELECT "edition", "lastVisitOn", "payload", "wellId" FROM "Standing";
DROP TABLE "Standing";
ALTER TABLE "new_Standing" RENAME TO "Standing";
CREATE INDEX "Standing_listed_suspicion_wellId_idx" ON "Standing"("listed", "suspicion", "wellId");
CREATE INDEX "Standing_listed_losing_idx" ON "Standing"("listed", "losing");
CREATE INDEX "Standing_listed_water_sampledOn_wellId_idx" ON "Standing"("listed", "water", "sampledOn", "wellId");
CREATE INDEX "Standing_chain_chainOn_idx" ON "Standing"("chain", "chainOn");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;
