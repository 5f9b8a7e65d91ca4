set(SHIFTS_SOURCES
    shifts/shift_chart.cpp shifts/shift_chart.h shifts/shift_layout.cpp shifts/shift_layout.h
    shifts/shift_night.cpp shifts/shift_night.h shifts/shift_painting.cpp shifts/shift_painting.h
    shifts/shift_table.cpp shifts/shift_table.h shifts/shift_totals.cpp shifts/shift_totals.h
    shifts/shifts_mark.cpp shifts/shifts_place.cpp shifts/shifts_place.h)
