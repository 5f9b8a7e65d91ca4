set(START_SOURCES start/start_view.cpp start/start_view.h)
