include(${CMAKE_CURRENT_LIST_DIR}/guards.cmake)
set(INSTALLATION_SOURCES
    ${GUARDS_SOURCES}
    installation/connections_view.cpp installation/connections_view.h
    installation/first_start.cpp installation/first_start.h
    installation/installation_mark.cpp installation/installation_place.cpp installation/installation_place.h
    installation/part_card.cpp installation/part_card.h installation/parts_table.cpp installation/parts_table.h
    installation/sheet_drawing.cpp installation/sheet_drawing.h installation/sheet_files.cpp installation/sheet_files.h
    installation/sheet_form.cpp installation/sheet_form.h installation/sheet_pages.cpp installation/sheet_pages.h
    installation/strokes_painter.cpp installation/strokes_painter.h
    installation/thread_finder.cpp installation/thread_finder.h
    installation/whole_table.cpp installation/whole_table.h)
