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
    "odds" REAL NOT NULL DEFAULT 1,
    "area" TEXT,
    "water" TEXT NOT NULL DEFAULT 'not-tested',
    "sampledOn" TEXT,
    "chain" TEXT,
    "chainOn" TEXT,
    CONSTRAINT "Standing_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Standing" ("cause", "chain", "chainOn", "edition", "lastVisitOn", "listed", "losing", "payload", "sampledOn", "settings", "suspicion", "water", "wellId") SELECT "cause", "chain", "chainOn", "edition", "lastVisitOn", "listed", "losing", "payload", "sampledOn", "settings", "suspicion", "water", "wellId" FROM "Standing";
DROP TABLE "Standing";
ALTER TABLE "new_Standing" RENAME TO "Standing";
CREATE INDEX "Standing_listed_suspicion_wellId_idx" ON "Standing"("listed", "suspicion", "wellId");
CREATE INDEX "Standing_listed_cause_suspicion_wellId_idx" ON "Standing"("listed", "cause", "suspicion", "wellId");
CREATE INDEX "Standing_listed_area_suspicion_wellId_idx" ON "Standing"("listed", "area", "suspicion", "wellId");
CREATE INDEX "Standing_listed_losing_suspicion_wellId_odds_idx" ON "Standing"("listed", "losing", "suspicion", "wellId", "odds");
CREATE INDEX "Standing_listed_water_sampledOn_wellId_idx" ON "Standing"("listed", "water", "sampledOn", "wellId");
CREATE INDEX "Standing_chain_chainOn_idx" ON "Standing"("chain", "chainOn");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;
