# Long work: rows of a picture are kept when it is interrupted, finished pictures are left alone, and many jobs run
# one after another.
target_sources(rakelight_output PRIVATE
  batch_list.cpp
  begun_film.cpp
  finished.cpp
  job_words.cpp
  render_in_bands.cpp
  run_self.cpp)
target_sources(rakelight PRIVATE command_batch.cpp render_kept.cpp)
