# Needs Qt6::Pdf (thumbnails) and Qt6::Concurrent beside Qt6::Widgets.
set(CHARTS_SOURCES
    charts/chart_painting.cpp charts/chart_painting.h
    charts/chart_session.cpp charts/chart_session.h
    charts/chart_view.cpp charts/chart_view.h charts/chart_view_keys.cpp charts/chart_view_painting.cpp
    charts/chart_words.cpp charts/chart_words.h
    charts/grid_snap.cpp charts/grid_snap.h
    charts/line_owners.cpp charts/line_owners.h
    charts/page_picture.cpp charts/page_picture.h
    charts/page_view.cpp charts/page_view.h
    charts/pin_form.cpp charts/pin_form.h)
