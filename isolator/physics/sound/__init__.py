"""How loud vibration is: hearing, what plates radiate, what panels take up. Changes, no levels."""
