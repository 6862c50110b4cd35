-- The invented works that the demonstration stoves are cut, bent and rolled in.
-- Invented for demonstration. Sizes, speeds and rates are of the order a small works meets: where no
-- source is named, a figure is common practice or plain invention.

works { name = "Demonstration works", note = "Invented for demonstration.", currency = "EUR",
        scrap_price = 0.22/kg, remnant_factor = 0.6, remnant_least = { 500*mm, 300*mm } }

-- Stock: hot-rolled S235 in the two usual formats (EN 10051 sheet); x runs along the rolling direction.
for _, sheet_mm in ipairs { 2*mm, 3*mm, 4*mm, 6*mm } do
    local label = string.format("S235 %d", sheet_mm / (1*mm))
    sheet { "S235", sheet_mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg, name = label .. " large" }
    sheet { "S235", sheet_mm, size = { 2000*mm, 1000*mm }, price = 1.12/kg, count = 12, name = label .. " small" }
end

-- Stainless sheet for oven liners and the like.
sheet { "1.4301", 1.5*mm, size = { 2500*mm, 1250*mm }, price = 3.9/kg, name = "1.4301 1.5" }

-- What was left of an earlier 4 mm sheet: a corner is gone and a round blank was cut from it.
remnant { "S235", 4*mm, name = "R-0317", price = 8,
          outline = polygon { { 0*mm, 0*mm }, { 940*mm, 0*mm }, { 940*mm, 380*mm }, { 610*mm, 380*mm },
                              { 610*mm, 720*mm }, { 0*mm, 720*mm } },
          holes = { hole { at = { 250*mm, 480*mm }, d = 260*mm } } }

-- Laser of 3 kW. Feeds: inside the range for 3 kW (handbook 4.3, a maker's speed chart); nitrogen up to 2 mm, oxygen
-- above. Pierce times, kerf 0.15 to 0.30 mm, lead about sheet + 1 mm, web max(s, 5 mm) with nitrogen and max(1.5 s, 8 mm)
-- with oxygen, edge margin 8 to 10 mm: common practice, no source. The stainless row is common practice throughout.
-- Gas: nitrogen 12 bar through 2.0 mm, oxygen 0.5 bar through 1.5 mm (nozzle formula, handbook 4.4); prices invented.
local n2_flow, n2_price, o2_flow, o2_price = 27.3*m3/h, 0.35/m3, 1.6*m3/h, 1.2/m3
local function with_n2(row) row.gas, row.flow, row.gas_price = "N2", n2_flow, n2_price return row end
local function with_o2(row) row.gas, row.flow, row.gas_price = "O2", o2_flow, o2_price return row end
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rate = 95/h,
        micro_joint = 0.4*mm, micro_below = 60*mm,
        rows = {
            with_n2 { "1.4301", 1.5*mm, feed = 7.0*m/min, pierce = 0.2*s, kerf = 0.15*mm, lead = 3*mm, web = 5*mm,
                      margin = 8*mm },
            with_n2 { "S235", 2*mm, feed = 6.0*m/min, pierce = 0.2*s, kerf = 0.15*mm, lead = 3*mm, web = 5*mm,
                      margin = 8*mm },
            with_o2 { "S235", 3*mm, feed = 4.0*m/min, pierce = 0.4*s, kerf = 0.20*mm, lead = 4*mm, web = 8*mm,
                      margin = 8*mm },
            with_o2 { "S235", 4*mm, feed = 3.5*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 5*mm, web = 8*mm,
                      margin = 10*mm },
            with_o2 { "S235", 6*mm, feed = 2.7*m/min, pierce = 1.0*s, kerf = 0.30*mm, lead = 5*mm, web = 9*mm,
                      margin = 10*mm },
        },
        program = { start = { "G21", "G90" }, stop = { "M2" }, beam_on = "M3", beam_off = "M5",
                    etch_on = "M13", etch_off = "M15" } }

-- Press brake. The natural inside radius of an air bend is about 0.16 V (handbook 2.2): the 20 die makes 3, the 32 die
-- 5, the 40 die 6, the 63 die 10 mm. Length, force and the trial are invented.
press { rule = "DIN 6935", dies = { 12*mm, 16*mm, 20*mm, 25*mm, 32*mm, 40*mm, 50*mm, 63*mm },
        length = 2500*mm, force = 1000*kN, joggle_least = 9*mm,
        trials = { { "S235", 4*mm, radius = 6*mm, k = 0.37,
                     note = "invented: three strips of 4 mm on the 40 die" } } }

-- Three-roll bender for shells, collars and spigots; the last two thicknesses of an edge stay flat (handbook 3.1).
rolls { length = 1250*mm, top_radius = 45*mm, lower_radius = 45*mm, centres = 130*mm, flat_end = 2.0 }
