-- CreateTable
CREATE TABLE "FleetTally" (
    "band" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "n" INTEGER NOT NULL
);

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
    "ownerId" TEXT,
    "waterGroup" TEXT,
    "waterOn" TEXT NOT NULL DEFAULT '',
    "chain" TEXT,
    "chainOn" TEXT,
    "band" INTEGER,
    CONSTRAINT "Standing_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Standing" ("area", "cause", "chain", "chainOn", "edition", "lastVisitOn", "listed", "losing", "odds", "payload", "settings", "suspicion", "wellId") SELECT "area", "cause", "chain", "chainOn", "edition", "lastVisitOn", "listed", "losing", "odds", "payload", "settings", "suspicion", "wellId" FROM "Standing";
DROP TABLE "Standing";
ALTER TABLE "new_Standing" RENAME TO "Standing";
CREATE INDEX "Standing_listed_suspicion_wellId_idx" ON "Standing"("listed", "suspicion", "wellId");
CREATE INDEX "Standing_listed_losing_suspicion_wellId_idx" ON "Standing"("listed", "losing", "suspicion", "wellId");
CREATE INDEX "Standing_listed_cause_losing_suspicion_wellId_idx" ON "Standing"("listed", "cause", "losing", "suspicion", "wellId");
CREATE INDEX "Standing_listed_area_suspicion_wellId_idx" ON "Standing"("listed", "area", "suspicion", "wellId");
CREATE INDEX "Standing_listed_area_cause_losing_suspicion_wellId_idx" ON "Standing"("listed", "area", "cause", "losing", "suspicion", "wellId");
CREATE INDEX "Standing_waterGroup_waterOn_wellId_idx" ON "Standing"("waterGroup", "waterOn", "wellId");
CREATE INDEX "Standing_area_waterGroup_waterOn_wellId_idx" ON "Standing"("area", "waterGroup", "waterOn", "wellId");
CREATE INDEX "Standing_ownerId_waterGroup_waterOn_wellId_idx" ON "Standing"("ownerId", "waterGroup", "waterOn", "wellId");
CREATE INDEX "Standing_ownerId_area_waterGroup_waterOn_wellId_idx" ON "Standing"("ownerId", "area", "waterGroup", "waterOn", "wellId");
CREATE INDEX "Standing_band_odds_idx" ON "Standing"("band", "odds");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "DueItem_ownerId_dutyKey_rank_dueOn_id_idx" ON "DueItem"("ownerId", "dutyKey", "rank", "dueOn", "id");

-- CreateIndex
CREATE INDEX "DueItem_area_dutyKey_rank_dueOn_id_idx" ON "DueItem"("area", "dutyKey", "rank", "dueOn", "id");
