"""What spillage-check says besides numbers: how the test is set up and run, what is written down, what follows a failure."""

VERDICT = (
    "Test it. No sum decides whether an appliance spills: test this house in the worst case, once before the system runs "
    "and once after."
)
SET_UP = (
    "Look first: vent size, pitch, gaps, rust, soot, blockage. Look for gas leaks. Read carbon monoxide in the room before "
    "anything is switched on, and keep the meter running; above 35 ppm burner off, air in, people out.",
    "Shut outside doors, windows and the fireplace damper. Burners off or on pilot. Let the vent cool.",
    "Outdoor end of the pressure hose 10 ft (3 m) or more from the house, out of the wind. Read the appliance room "
    "against outdoors with every fan off: this is the base reading.",
    "Clean the lint filter. Run the dryer and every exhaust fan on high. Leave a summer whole-house fan off.",
    "Shut the inside doors. Open again each one that makes the appliance room less negative when it is shut. Smoke at the "
    "gap under the door shows which.",
    "Run the furnace blower. Keep it on if the room gets more negative.",
    "Read again. Worst case less base is what the fans add: this number, not the sum above, is compared with the limit.",
)
BEFORE = (
    "Radon fan off, or not there yet. Set the house up as listed.",
    "Fire the smallest appliance first. Watch the draft hood with mirror or smoke and time how long it spills.",
    "Texts differ on how long it may spill: one fuel-gas appendix allows none after 5 minutes of main burner, one "
    "programme's sheet none after 1 minute. Write the time down and use the text that is in force where you work.",
    "Read draft, and carbon monoxide in the flue before the hood, at the latest after 10 minutes.",
    "Then fire all appliances on that vent together.",
    "If it spills already without the radon fan, the house had the fault before you came: stop, tell the owner in writing, "
    "and let the vent be put right first.",
)
AFTER = (
    "Radon fan at its final speed, lid closed, all sealing done. The radon fan counts as an exhaust that always runs.",
    "Do the whole test again, set up the same way.",
    "If it spills now and did not before, the system is the cause until something else is shown.",
    "Put everything back: pilots, thermostats, doors, damper, lint filter.",
    "Test again after any later sealing, a stronger fan, a new exhaust fan or a new appliance.",
)
IF_IT_FAILS = (
    "Appliance off. Open windows. If the meter goes above 35 ppm or anyone feels ill, everybody out, then call the emergency "
    "number from outside.",
    "Radon fan off if the spilling came with it. Radon is a risk of years, carbon monoxide one of minutes. Put it in writing.",
    "Tell owner and occupants. Tag the appliance where the law wants it. Do not relight it.",
    "Vent defects and the appliance itself go to a licensed heating or gas trade.",
    "Take away suction of house air: lid, slots, drains, cracks; then a smaller fan.",
    "Make-up air or balanced ventilation by design, not a hole by guess. A sealed-combustion appliance is the lasting cure.",
    "Test again in the worst case. Carbon monoxide alarms in any case; a silent alarm proves nothing below 70 ppm.",
)
RECORD = (
    "Date, weather, outdoor and indoor temperature, wind: ____",
    "Doors open and shut, blower on or off, fireplace damper: ____",
    "Exhaust fans that ran, each by name: ____",
    "Room carbon monoxide before, highest during the test (ppm): ____",
    "Base reading, every fan off (Pa): before ____ after ____",
    "Worst case (Pa): before ____ after ____",
    "What the fans add (Pa): before ____ after ____",
    "Limit that was used, and whose table it is: ____",
    "Each appliance: seconds until spilling stops, before ____ after ____",
    "Each appliance: draft (Pa) and flue carbon monoxide (ppm), before ____ after ____",
    "Everything put back, told to: ____",
    "Who tested, which text was followed and its edition: ____",
)
KINDS = {
    "natural-draft-water-heater": "water heater, natural draft",
    "shared-vent": "water heater on a shared vent",
    "natural-draft-furnace": "furnace or boiler, natural draft",
    "induced-draft": "induced-draft appliance",
    "power-vented": "power-vented appliance",
    "sealed": "sealed-combustion appliance",
    "solid-fuel": "wood or other solid-fuel appliance",
}
SOLID_FUEL = (
    "A solid-fuel appliance is in this house: stop. It draws weakly for hours while its fire dies and no limit is used for it "
    "here. Leave the radon fan off until a specialist has tested it in the worst case."
)
WHOLE_HOUSE = (
    "A whole-house fan is in this house: stop. It moves more air than all other fans together and is never run for the "
    "test or with windows shut. Agree in writing how it is locked out or interlocked before any work goes on."
)
SPILLED = (
    "An appliance spilled in the test: stop. Appliance off, windows open, radon fan off if the spilling came with it, and "
    "the licensed trade before anything is lit again."
)
