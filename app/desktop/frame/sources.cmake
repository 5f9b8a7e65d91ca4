set(FRAME_SOURCES
    frame/answer_strip.cpp frame/answer_strip.h frame/card.cpp frame/card.h frame/desk.h frame/dialogs.cpp
    frame/dialogs.h frame/elided_label.cpp frame/elided_label.h frame/main_window.cpp frame/main_window.h frame/main_window_files.cpp frame/main_window_menus.cpp frame/message_bar.cpp frame/message_bar.h
    frame/number_entry.cpp frame/number_entry.h frame/place.h frame/rail.cpp frame/rail.h frame/screen_phrasing.cpp frame/screen_phrasing.h frame/shortcuts_page.cpp
    frame/shortcuts_page.h frame/theme.cpp frame/theme.h frame/units_menu.cpp frame/units_menu.h)
